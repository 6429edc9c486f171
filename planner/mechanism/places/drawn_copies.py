"""Copies whose meshes are drawn in place, the first copy of a part with several copies among them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.assembly import Claim, coaxial, drawn_in_place
from planner.job import Job, part_of
from planner.mechanism.places.axis_fits import moved
from planner.mechanism.places.frame import STILL, Frame
from planner.mechanism.places.place_room import Room
from planner.mechanism.places.slot_ties import APART_MM, slotted_groups
from planner.mesh import Solid
from planner.survey import Survey


def drawn_copies(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    stated: Mapping[str, Frame],
) -> tuple[frozenset[str], tuple[frozenset[str], ...]]:
    """Return the copies that stand in the device's frame as drawn, and other groups that stand so to each other.

    A copy with a stated place that moves its mesh was drawn elsewhere. Of a part with several copies only the first
    can be drawn in place; it counts where the others' group holds without it, too.
    """
    elsewhere = {copy for copy, frame in stated.items() if not frame.still}
    firsts = replace(job, parts=tuple(replace(part, count=1) for part in job.parts))
    of_firsts = drawn_in_place(firsts, solids, claims)
    wide = [group - elsewhere for group in of_firsts]
    sound = [group for group in wide if len(group) > 1]
    covered = frozenset[str]().union(*sound)
    of_singles = of_firsts if firsts == job else drawn_in_place(job, solids, claims)
    narrow = [group - elsewhere - covered for group in of_singles]
    drawn = [*sound, *(g for g in narrow if len(g) > 1)]
    still = {part.name for part in job.parts if part.name not in elsewhere}
    drawn = [group & still for group in slotted_groups(job, solids, surveys, claims, drawn)]
    groups = sorted((g for g in drawn if len(g) > 1), key=lambda group: (-len(group), sorted(group)))
    fixed = frozenset(copy for copy in stated if copy not in elsewhere)
    based = [n for n, group in enumerate(groups) if group & fixed] or [0]
    base = frozenset[str]().union(*(group for n, group in enumerate(groups) if n in based))
    return base, tuple(group for n, group in enumerate(groups) if n not in based)


def drawn_beside(
    job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim], frames: Mapping[str, Frame]
) -> dict[str, Frame]:
    """Return the parts that stand as drawn beside copies with a place: bores of both lie on one axis of one pin.

    Who places one part where it belongs has drawn the other one there.
    """
    room = Room(solids=solids, frames=dict(frames))
    waiting = [p.name for p in job.parts if p.count == 1 and p.scale_percent is None and p.name not in frames]
    found: dict[str, Frame] = {}
    while name := next((name for name in waiting if _meets_placed(job, claims, room, name)), None):
        waiting.remove(name)
        room.frames[name] = found[name] = STILL
    return found


def _meets_placed(job: Job, claims: Sequence[Claim], room: Room, name: str) -> bool:
    """Return whether a part as drawn shares the axis of a pin with a copy that has a place, beside it and not in it."""
    for hardware in job.hardware:
        mine = [claim.bore for claim in claims if claim.hardware.name == hardware.name and claim.part == name]
        for copy, frame in room.frames.items() if mine else ():
            theirs = [
                moved(c.bore, frame) for c in claims if c.hardware.name == hardware.name and c.part == part_of(copy)
            ]
            if not theirs or not all(any(coaxial(bore, other) for other in theirs) for bore in mine):
                continue
            one, two = room.body(name, STILL), room.body(copy, frame)
            near = one is not None and two is not None and float(one.min_gap(two, APART_MM + 1.0)) <= APART_MM
            if near and room.free((name,), STILL):
                return True
    return False
