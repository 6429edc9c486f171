"""First joint: the fewest pieces that make one joint complete, printed before everything else to try the fit."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from planner.finding import Finding, Verdict
from planner.job import Job
from planner.packing import Item, PackedPlate
from planner.plan.planned_part import PlannedPart

RUNS = ("turning",)
SLIDES = ("sliding",)


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstJoint:
    """A joint by its words, and how many copies of which parts make one of it."""

    name: str
    copies: Mapping[str, int]
    moves: int
    """0 where it turns or runs, 1 where it slides, 2 else: what moves shows a bad fit first."""

    @property
    def told(self) -> str:
        """The joint and its pieces in words."""
        pieces = ", ".join(f"{part} x {n}" for part, n in self.copies.items())
        return f"{self.name} ({pieces})"


def first_joint(job: Job, parts: Sequence[PlannedPart], items: Sequence[Item]) -> FirstJoint | None:
    """Return the joint to try first; None where the job asks for none, or none can lie on a plate of its own.

    Of the joints whose pieces are set alike by hand: those that run before those that slide before the others, then
    the least plastic, then the fewest pieces. One joint as first article: common practice, no source.
    """
    if job.calendar is None or not job.calendar.joint_first:
        return None
    groups = {item.part: item.group for item in items}
    plastic = {p.part.name: p.estimate.deposited_mm3 if p.estimate else math.inf for p in parts}

    def worth(joint: FirstJoint) -> tuple[int, float, int, str]:
        mm3 = sum(n * plastic[part] for part, n in joint.copies.items())
        return joint.moves, mm3, sum(joint.copies.values()), joint.name

    able = [
        joint
        for joint in _joints(job)
        if len({groups[part] for part in joint.copies}) == 1 and _free(job, joint) and math.isfinite(worth(joint)[1])
    ]
    return min(able, key=worth, default=None)


def _joints(job: Job) -> Iterator[FirstJoint]:
    """Yield every joint of two pieces or more.

    Of hardware that several copies of a part share, as many copies lie in one joint as there are more of them than of
    the hardware.
    """
    counts = {part.name: part.count for part in job.parts}
    for gap in job.gaps:
        yield FirstJoint(name=f"gap {' to '.join(gap.between)}", copies=dict.fromkeys(gap.between, 1), moves=0)
    for hardware in job.hardware:
        copies = {part: max(1, math.ceil(counts[part] / hardware.count)) for part in hardware.joins}
        if sum(copies.values()) > 1:
            moves = 0 if hardware.turns or hardware.fit in RUNS else 1 if hardware.fit in SLIDES else 2
            yield FirstJoint(name=hardware.name, copies=copies, moves=moves)
    for joint in job.joints:
        moves = 1 if joint.how == "slid" else 2
        name = f"{' to '.join(joint.between)}, {joint.how}"
        yield FirstJoint(name=name, copies=dict.fromkeys(joint.between, 1), moves=moves)


def _free(job: Job, joint: FirstJoint) -> bool:
    """Return whether no rule of the job keeps a joint's pieces apart, or with others that are not in it."""
    assert job.calendar is not None
    counts = {part.name: part.printed_n for part in job.parts}
    mine = set(joint.copies)
    if any(len(mine.intersection(names)) > 1 for names in job.calendar.apart):
        return False
    bound = [names for names in job.calendar.together if mine.intersection(names)]
    return all(joint.copies.get(part) == counts[part] for names in bound for part in names)


def dealt_first(joint: FirstJoint, items: Sequence[Item]) -> tuple[list[Item], list[Item]]:
    """Return the items of the joint, and those of all other copies."""
    first = [replace(item, copies=joint.copies[item.part]) for item in items if item.part in joint.copies]
    rest = [replace(item, copies=item.copies - joint.copies.get(item.part, 0)) for item in items]
    return first, [item for item in rest if item.copies > 0]


def joint_before(joint: FirstJoint, first: PackedPlate, rest: Sequence[PackedPlate]) -> tuple[PackedPlate, ...]:
    """Return the joint's plate, then the others with their copies numbered on from those in the joint."""
    later = [
        replace(
            plate,
            placements=tuple(replace(p, copy=p.copy + joint.copies.get(p.part, 0)) for p in plate.placements),
        )
        for plate in rest
    ]
    return (replace(first, joint=joint.told), *later)


def no_first_joint() -> Finding:
    """Say that no joint can be printed first: a caution, for it changes no verdict about the device."""
    why = (
        "[plan] asks for one joint as first article, and the pieces of none can lie on one plate alone (they differ in "
        "colour, support or layer height, or together and apart bind them): the first plate is the first article"
    )
    return Finding(
        rule="plate.first-joint",
        part="",
        feature="first article",
        verdict=Verdict.GO,
        why=why,
        caution=why,
        source="[plan] first_article",
    )
