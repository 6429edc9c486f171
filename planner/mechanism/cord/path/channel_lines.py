"""Which channels a part has for cords, in the order in which a path counts them, as centre lines."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Cord, Job
from planner.mechanism.cord.vectors import plus
from planner.rules import ways_of
from planner.survey import Bore, Channel, Survey

POINTS_MOST = 13
"""Points of a curved channel's centre line that are kept: as many as its turning is told from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChannelLine:
    """One channel: its centre line from mouth to mouth, and how far it turns inside."""

    line_mm: tuple[Vec3, ...]
    bends_deg: float
    name: str
    """The bore that it is; empty for a curved one."""


def channel_lines(job: Job, cord: Cord, survey: Survey, claims: Iterable[Claim]) -> tuple[ChannelLine, ...]:
    """Return a part's channels: the straight bores that cords claim, by their number, then the curved ones.

    Every cord that names the part counts, so that two cords count alike; where none does, this cord's size decides.
    """
    taken = {(claim.part, claim.bore.id) for claim in claims}
    cords = [one for one in job.cords if one.part == survey.name] or [replace(cord, part=survey.name)]
    straight = {bore.id: bore for one in cords for bore in ways_of(job, one, survey, taken).bores}
    lines = [_straight(bore) for bore in sorted(straight.values(), key=lambda bore: int(bore.id[1:]))]
    return (*lines, *(_curved(channel) for channel in survey.channels))


def _straight(bore: Bore) -> ChannelLine:
    """Return a bore's axis from mouth to mouth."""
    ends = tuple(plus(bore.centre_mm, bore.axis, sign * bore.depth_mm / 2) for sign in (-1.0, 1.0))
    return ChannelLine(line_mm=ends, bends_deg=0.0, name=bore.id)


def _curved(channel: Channel) -> ChannelLine:
    """Return a curved channel's centre line, thinned."""
    n = len(channel.line_mm)
    kept = np.round(np.linspace(0, n - 1, min(n, POINTS_MOST))).astype(int)
    return ChannelLine(line_mm=tuple(channel.line_mm[k] for k in kept), bends_deg=channel.bends_deg, name="")
