"""Where every copy of a part stands: as stated, as drawn, or put together from axes, mid-planes and faces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from planner.assembly import Claim
from planner.job import Job, PartPlace, copy_name
from planner.mechanism.places.drawn_copies import drawn_beside, drawn_copies
from planner.mechanism.places.frame import STILL, Frame, rotation
from planner.mechanism.places.printed_pins import printed_pins
from planner.mechanism.places.put_together import put_together
from planner.mesh import Solid
from planner.survey import Survey

How = Literal["stated", "drawn", "solved"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Where the copies stand, in the device's frame at 100 %.

    Parameters
    ----------
    copies
        The frame of every copy whose place is known.
    how
        How its place came to be known.
    free
        What stays free of a copy that was put together, in words: the angle at which it stands is not known then.
    unplaced
        Copies whose place is not known.
    why
        For each of these, one sentence why not.
    """

    copies: Mapping[str, Frame]
    how: Mapping[str, How]
    free: Mapping[str, str] = field(default_factory=dict)
    unplaced: tuple[str, ...] = ()
    why: Mapping[str, str] = field(default_factory=dict)


def placed(job: Job, solids: Mapping[str, Solid], surveys: Mapping[str, Survey], claims: Sequence[Claim]) -> Placed:
    """Return where every copy stands: ``[[place]]`` first, then meshes drawn in place, then what axes and faces tell.

    The largest group of parts drawn in place is the device's frame; where there is none and nothing is stated, the
    part that most hardware goes through is.
    """
    stated = {place.part: frame_of(place) for place in job.places}
    every = tuple(copy_name(part.name, n) for part in job.parts for n in range(1, part.count + 1))
    if set(stated) >= set(every):
        return Placed(copies={copy: stated[copy] for copy in every}, how=dict.fromkeys(every, "stated"))
    base, loose = drawn_copies(job, solids, surveys, claims, stated)
    frames: dict[str, Frame] = {**dict.fromkeys(base, STILL), **stated}
    if not frames:
        frames[_middle(job)] = STILL
    elif stated:
        frames |= drawn_beside(job, solids, claims, frames)
    rest = put_together(job, solids, surveys, claims, frames, loose)
    known = {**rest.frames, **frames}
    how: dict[str, How] = {copy: "stated" if copy in stated else "drawn" for copy in frames}
    for copy, (frame, drawn) in printed_pins(job, solids, claims, known).items():
        known[copy], how[copy] = frame, "drawn" if drawn else "solved"
    return Placed(
        copies={copy: known[copy] for copy in every if copy in known},
        how={copy: how.get(copy, "solved") for copy in every if copy in known},
        free=rest.free,
        unplaced=tuple(copy for copy in every if copy not in known),
        why=rest.why,
    )


def frame_of(place: PartPlace) -> Frame:
    """Return what a ``[[place]]`` says: turned about the mesh's origin, then moved."""
    return Frame(turn=rotation(place.turn[:3], place.turn[3]), shift_mm=np.array(place.at_mm))


def _middle(job: Job) -> str:
    """Return the part that most hardware, gaps and joints name; the first of several."""
    names = [name for h in job.hardware for name in h.joins]
    ties = [*(gap.between for gap in job.gaps), *(joint.between for joint in job.joints)]
    names += [name for pair in ties for name in pair]
    single = [part.name for part in job.parts if part.count == 1] or [part.name for part in job.parts]
    return max(single, key=names.count)
