"""Copies whose meshes are drawn in place, the first copy of a part with several copies among them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.assembly import Claim, drawn_in_place
from planner.job import Job
from planner.mechanism.places.frame import Frame
from planner.mechanism.places.slot_ties import slotted_groups
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
    moved = {copy for copy, frame in stated.items() if not frame.still}
    firsts = replace(job, parts=tuple(replace(part, count=1) for part in job.parts))
    wide = [group - moved for group in drawn_in_place(firsts, solids, claims)]
    sound = [group for group in wide if len(group) > 1]
    covered = frozenset[str]().union(*sound)
    narrow = [group - moved - covered for group in drawn_in_place(job, solids, claims)]
    drawn = [*sound, *(g for g in narrow if len(g) > 1)]
    still = {part.name for part in job.parts if part.name not in moved}
    drawn = [group & still for group in slotted_groups(job, solids, surveys, claims, drawn)]
    groups = sorted((g for g in drawn if len(g) > 1), key=lambda group: (-len(group), sorted(group)))
    fixed = frozenset(copy for copy in stated if copy not in moved)
    based = [n for n, group in enumerate(groups) if group & fixed] or [0]
    base = frozenset[str]().union(*(group for n, group in enumerate(groups) if n in based))
    return base, tuple(group for n, group in enumerate(groups) if n not in based)
