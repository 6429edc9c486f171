"""Bores that lie over bores drawn for inserts: a screw through them ends in the insert, and takes no nut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from planner.assembly.bore_axes import alike, axes_of, coaxial
from planner.assembly.claim import bores_near
from planner.assembly.doubts.answer_edits import Answer
from planner.assembly.doubts.bore_groups import BoreGroup, regrouped
from planner.assembly.doubts.mates.bearing_answers import insert_answers
from planner.job import Job
from planner.phrases import listed
from planner.survey import Bore, Survey

OVER_FACTOR, TURNING_FACTOR = 6.0, 0.3
"""How well a shared pattern speaks for screw and insert, and against what turns; common practice, no source."""
PATTERN_LEAST_N = 3
"""So many bores that lie to each other alike tell a pattern where parts are not drawn in place; no source."""
NEAR_MM = 0.1
Key = tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Inserted:
    """Through bores with the part that has the inserts below them, and those bores, each with the screw's diameter."""

    over: Mapping[Key, tuple[str, float]] = field(default_factory=dict)
    under: Mapping[Key, float] = field(default_factory=dict)


def inserted(groups: Sequence[BoreGroup], job: Job, surveys: Mapping[str, Survey]) -> Inserted:
    """Return which bores lie over bores drawn for inserts, in place or as the same pattern."""
    over: dict[Key, tuple[str, float]] = {}
    under: dict[Key, float] = {}
    lids = list(_lids(groups, job, surveys))
    for part, below, d in _seats(groups, job, surveys):
        for lid, bores in lids:
            if lid != part and _passes(job, bores, d) and _over(bores, below):
                over |= {(lid, bore.id): (part, d) for bore in bores}
                under |= {(part, bore.id): d for bore in below}
    return Inserted(over=over, under=under)


def _seats(
    groups: Sequence[BoreGroup], job: Job, surveys: Mapping[str, Survey]
) -> Iterator[tuple[str, tuple[Bore, ...], float]]:
    """Yield a part, its bores that an insert has or may have, and the diameter of its thread."""
    for group in groups:
        if group.through or group.bearing is not None:
            continue
        for answer in insert_answers(group.size_mm, group.depth_mm, group.parts, 1, job.tables, blind=True):
            for part in group.parts:
                yield part, _of(group, part), answer.hardware[0].diameter_mm
    for one in job.hardware:
        for part in one.joins if one.kind == "insert" and one.bore_mm is not None else ():
            yield part, bores_near(surveys[part], one.bore_mm or 0.0, job.limits, one.bores), one.diameter_mm


def _lids(
    groups: Sequence[BoreGroup], job: Job, surveys: Mapping[str, Survey]
) -> Iterator[tuple[str, tuple[Bore, ...]]]:
    """Yield a part and its through bores of one size: those nobody spoke of, and those of a screw without a nut."""
    for group in groups:
        if group.through and group.bearing is None and group.wider is None:
            yield from ((part, _of(group, part)) for part in group.parts)
    for one in job.hardware:
        if one.kind == "machine-screw" and one.nut is None and one.bore_mm is not None:
            yield from ((part, bores_near(surveys[part], one.bore_mm, job.limits, one.bores)) for part in one.joins)


def _of(group: BoreGroup, part: str) -> tuple[Bore, ...]:
    """Return the bores of a group in one part."""
    return tuple(bore for name, bore in group.members if name == part)


def _passes(job: Job, bores: Sequence[Bore], d: float) -> bool:
    """Return whether a screw of some diameter passes bores as usual: fine to coarse of ISO 273."""
    ends = [
        (one.bores_mm[0].value, one.bores_mm[2].value)
        for one in job.tables.machine_screws
        if one.diameter_mm.value == d
    ]
    return bool(bores) and any(
        fine - NEAR_MM <= bore.drawn_diameter_mm <= coarse + NEAR_MM for fine, coarse in ends for bore in bores[:1]
    )


def _over(bores: Sequence[Bore], below: Sequence[Bore]) -> bool:
    """Return whether every bore lies over one of the others: on its axis as drawn, or all in the same pattern."""
    if all(any(coaxial(bore, other) for other in below) for bore in bores):
        return True
    axes = axes_of(bores)
    return len(axes) >= PATTERN_LEAST_N and any(len(one) == len(axes) for one in alike(axes_of(below), axes))


def apart(groups: Sequence[BoreGroup], found: Inserted) -> list[BoreGroup]:
    """Return the groups, with the parts that lie over inserts asked about by themselves where others do not."""
    split: list[BoreGroup] = []
    for group in groups:
        over = {name for name, bore in group.members if (name, bore.id) in found.over}
        into = {found.over[name, bore.id] for name, bore in group.members if (name, bore.id) in found.over}
        if not over or group.wider is not None or len({d for _, d in into}) > 1:
            split.append(group)
            continue
        mine = regrouped(group, over)
        split.append(replace(mine, into=tuple(sorted({part for part, _ in into})), apart=over != set(group.parts)))
        if over != set(group.parts):
            split.append(regrouped(group, set(group.parts) - over))
    return split


def with_inserts(group: BoreGroup, answers: Sequence[Answer], found: Inserted) -> tuple[Answer, ...]:
    """Return the answers about a group by what lies over or under it: the screw joins both parts and takes no nut."""
    under = {found.under.get((name, bore.id)) for name, bore in group.members}
    over = {d for name, bore in group.members for _, d in [found.over.get((name, bore.id), ("", 0.0))]}
    (d,) = over if group.into and len(over) == 1 else under if len(under) == 1 else (None,)
    if not d:
        return tuple(answers)
    told = [_over_insert(one, group, d) if group.into else _in_seat(one, d) for one in answers]
    return tuple(sorted(told, key=lambda one: -one.weight_factor))


def _in_seat(one: Answer, d: float) -> Answer:
    """Return an answer about bores that a pattern of bores lies over: an insert for what passes these is likely."""
    fits = [each for each in one.hardware if each.kind == "insert" and each.diameter_mm == d]
    return replace(one, weight_factor=one.weight_factor * OVER_FACTOR) if fits else one


def _over_insert(one: Answer, group: BoreGroup, d: float) -> Answer:
    """Return an answer about bores that lie over inserts: their screw holds, and little else goes through."""
    screws = [each for each in one.hardware if each.kind == "machine-screw" and each.fit == "sliding"]
    if not screws or screws[0].diameter_mm != d or len(one.hardware) > 1:
        return replace(one, weight_factor=one.weight_factor * (TURNING_FACTOR if one.hardware else 1.0))
    screw = replace(screws[0], nut=None, joins=(*screws[0].joins, *group.into))
    label = screw.name.split(" in ")[0]
    text = f"an {label} goes through into an insert in {listed(group.into)}"
    return replace(one, text=text, hardware=(screw,), weight_factor=one.weight_factor * OVER_FACTOR)
