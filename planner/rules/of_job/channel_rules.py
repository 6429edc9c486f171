"""Bind the rule of cord channels: straight ones are bores, curved ones have a centre line."""

from __future__ import annotations

import math
from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from planner.assembly import bores_near
from planner.finding import Finding, Guess, Vec3, Verdict
from planner.job import Cord, Job
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.rules.fit.channels.channel_corner import corner_findings
from planner.rules.fit.fitted_openings import ChannelTight
from planner.rules.of_job.bore_rules import edge_limit, undersize_of, work_on
from planner.rules.of_job.opening_rules import LIKE_SHARE, OpeningRules, missing
from planner.rules.of_job.stated_differs import differs
from planner.rules.rule import Rule, constants
from planner.survey import Bore, Channel, Survey

FACETED_SHARE = 0.04
"""A curved channel's inscribed diameter may be this much less than the drawn one: 12 facets take 3.4 %."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """Where a cord runs in its part: straight bores, curved channels, and ``leads``, the straight mouths of these.

    A mouth belongs to its channel: what is judged, or cut again, is the channel as a whole.
    """

    bores: tuple[Bore, ...]
    channels: tuple[Channel, ...]
    leads: tuple[Bore, ...]


def channel_rules(
    job: Job, surveys: Mapping[str, Survey], downs: Mapping[str, Vec3], taken: AbstractSet[tuple[str, str]]
) -> OpeningRules:
    """Bind ``channel.tight`` for every cord; ``taken`` are bores that hardware claims already."""
    rules: list[Rule] = []
    guesses, claimed, curved = [], set(), set()
    for cord in job.cords:
        ways = ways_of(job, cord, surveys[cord.part], taken)
        drawn = cord.channel_mm or _width_mm(ways)
        if drawn is None:
            why = "channel_mm is not stated and no channel would take it"
            rules.append(missing("channel.missing", cord.part, cord.name, why, "state channel_mm"))
            continue
        what = f"channel of {cord.name}"
        if cord.channel_mm is None:
            guesses.append(Guess(what=what, value=f"{drawn:.2f} mm", why="smallest channel that takes it"))
        elif not ways.bores and not ways.channels:
            others = _claimed_by_others(job, cord, surveys[cord.part], taken)
            near = _nearest(cord.channel_mm, surveys[cord.part], others)
            if near is not None or not surveys[cord.part].unrecognised_n:
                rules.append(_no_such_channel(cord, cord.channel_mm, near))
                continue
            why = "an opening of the part was not recognised: it may be this channel, taken as stated and as curved"
            guesses.append(Guess(what=what, value=f"{drawn:.2f} mm", why=why))
        claimed |= {(cord.part, bore.id) for bore in (*ways.bores, *ways.leads)}
        curved |= {(cord.part, channel.at_mm) for channel in ways.channels}
        rules += _rules(job, cord, ways, drawn, downs[cord.part])
        rules += constants(corner_findings(cord, ways.bores))
    for survey in surveys.values():
        free = [channel for channel in survey.channels if (survey.name, channel.at_mm) not in curved]
        rules += constants(_unclaimed(survey.name, channel) for channel in free)
    return OpeningRules(rules=tuple(rules), guesses=tuple(guesses), bores=frozenset(claimed))


def ways_of(job: Job, cord: Cord, survey: Survey, taken: AbstractSet[tuple[str, str]]) -> Ways:
    """Return the channels that a cord runs through: of the size stated, else the smallest that take it."""
    free = tuple(bore for bore in survey.bores if (survey.name, bore.id) not in taken)
    if cord.channel_mm is not None:
        near = bores_near(survey, cord.channel_mm, job.limits)
        slack = job.limits.bore_match_percent.value / 100.0
        least, most = (1 - slack - FACETED_SHARE) * cord.channel_mm, (1 + slack) * cord.channel_mm
        curved = tuple(channel for channel in survey.channels if least <= channel.named_mm <= most)
        return _parted(tuple(bore for bore in free if bore in near), curved)
    least, most = cord.diameter_mm, 4 * cord.diameter_mm
    bores = tuple(bore for bore in free if least < bore.named_mm < most)
    curved = tuple(channel for channel in survey.channels if least < channel.named_mm < most)
    smallest = min([b.named_mm for b in bores] + [c.named_mm for c in curved], default=0.0)
    return _parted(
        tuple(bore for bore in bores if bore.named_mm < 1.04 * smallest),
        tuple(channel for channel in curved if channel.named_mm < 1.04 * smallest),
    )


def _claimed_by_others(job: Job, cord: Cord, survey: Survey, taken: AbstractSet[tuple[str, str]]) -> set[Vec3]:
    """Return the places of openings that hardware or the part's other cords take."""
    places = {bore.centre_mm for bore in survey.bores if (survey.name, bore.id) in taken}
    for other in job.cords:
        if other.part == cord.part and other.name != cord.name:
            ways = ways_of(job, other, survey, taken)
            places |= {bore.centre_mm for bore in (*ways.bores, *ways.leads)} | {c.at_mm for c in ways.channels}
    return places


def _nearest(stated_mm: float, survey: Survey, others: set[Vec3]) -> tuple[float, Vec3] | None:
    """Return width and place of the opening most like a stated channel; None where nothing is like it."""
    widths = [(bore.drawn_diameter_mm, bore.centre_mm) for bore in survey.bores]
    widths += [(channel.diameter_mm, channel.at_mm) for channel in survey.channels]
    like = [(width, at) for width, at in widths if at not in others and abs(width / stated_mm - 1.0) < LIKE_SHARE]
    return min(like, key=lambda pair: abs(pair[0] - stated_mm), default=None)


def _no_such_channel(cord: Cord, stated_mm: float, near: tuple[float, Vec3] | None) -> Rule:
    """Return the hold of a channel that the mesh has not, with what comes nearest to it."""
    return differs(
        part=cord.part,
        feature=f"channel {cord.name}",
        what=f"channel of {cord.name}",
        key="channel_mm",
        stated_mm=stated_mm,
        measured_mm=near[0] if near else None,
        at_mm=near[1] if near else None,
        doubt="" if near else ", or is it an open groove",
    )


def _parted(bores: tuple[Bore, ...], channels: tuple[Channel, ...]) -> Ways:
    """Tell the mouths of curved channels from bores of their own."""
    leads = tuple(bore for bore in bores if _leads_in(bore, channels))
    return Ways(bores=tuple(bore for bore in bores if bore not in leads), channels=channels, leads=leads)


def _width_mm(ways: Ways) -> float | None:
    """Return the drawn diameter of what was found, or None."""
    widths = [bore.drawn_diameter_mm for bore in (*ways.bores, *ways.leads)] + [
        channel.diameter_mm for channel in ways.channels
    ]
    return widths[0] if widths else None


def _named(channel: Channel) -> str:
    """Return what a person would call a channel that nothing claims."""
    return f"channel of {channel.diameter_mm:.2f} mm, {channel.length_mm:.1f} mm long"


def _rules(job: Job, cord: Cord, ways: Ways, drawn_mm: float, down: Vec3) -> list[Rule]:
    """Return one rule for each channel of a cord, or one for a channel as stated."""
    cases: list[tuple[str, float, Bore | None, Vec3 | None]] = [
        (bore.id, bore.diameter_mm, bore, bore.centre_mm) for bore in ways.bores
    ]
    curved, part = f"channel {cord.name}", job.part(cord.part)
    cases += [(curved, channel.diameter_mm, None, channel.at_mm) for channel in ways.channels]
    return [
        ChannelTight(
            part=cord.part,
            feature=feature,
            cord=cord.name,
            channel_mm=width,
            straight=bore is not None and bore.through,
            at_mm=at,
            undersize_mm=undersize_of(job, bore.axis if bore else None, down)[0],
            calibrated=job.printer.calibrated,
            cord_mm=cord.diameter_mm,
            share=job.limits.channel_share,
            work=work_on(job, part, bore) if bore else WorkedBore(),
            beside_mm=bore.edge_wall_mm + bore.drawn_diameter_mm / 2
            if bore and bore.edge_wall_mm is not None
            else None,
            edge_limit_mm=edge_limit(job, part)[0],
        )
        for feature, width, bore, at in cases or [(curved, drawn_mm, None, None)]
    ]


def _leads_in(bore: Bore, channels: tuple[Channel, ...]) -> bool:
    """Return whether a straight bore is the mouth of a curved channel."""
    lines = ((channel.diameter_mm, point) for channel in channels for point in channel.line_mm)
    return any(math.dist(bore.centre_mm, point) < width for width, point in lines)


def _unclaimed(part: str, channel: Channel) -> Finding:
    """List a curved channel that no cord claims."""
    return Finding(
        rule="channel.unclaimed",
        part=part,
        feature=_named(channel),
        verdict=Verdict.GO,
        measured=channel.diameter_mm,
        unit="mm",
        at_mm=channel.at_mm,
        why=f"no cord is named for a curved channel of {channel.diameter_mm:.2f} mm inside, "
        f"{channel.length_mm:.1f} mm long, {channel.bends_deg:.0f} degrees of bends",
        source="survey of the mesh",
        caution="listed only: no cord claims it",
    )
