"""Pins on which something turns, and it is not known on what: that is told, and is no "nothing moves"."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from planner.assembly import Claim, overlap_as_drawn
from planner.job import Job, copy_name, part_of
from planner.mechanism.joints.bore_stacks import BoreStack
from planner.mechanism.places.frame import Frame
from planner.mesh import Solid
from planner.phrases import listed


def unmet_pins(
    job: Job,
    claims: Sequence[Claim],
    frames: Mapping[str, Frame],
    stacks: Sequence[BoreStack],
    spoken: Collection[str],
    solids: Mapping[str, Solid],
) -> Iterator[str]:
    """Yield a sentence for every pin on which a copy turns that has no place, or that meets nothing on the pin's axis.

    ``spoken`` are copies that a stated joint speaks of: what is missing of them is told there.
    """
    turning = {(claim.hardware.name, claim.part) for claim in claims if claim.fit == "turning"}
    for hardware in job.hardware:
        if len(hardware.joins) < 2 or not any((hardware.name, name) in turning for name in hardware.joins):
            continue
        every = {name: [copy_name(name, n) for n in range(1, job.part(name).count + 1)] for name in hardware.joins}
        missing = [copy for copies in every.values() for copy in copies if copy not in frames and copy not in spoken]
        if missing:
            yield f"{' to '.join(hardware.joins)}: {no_place(job, solids, claims, missing)}"
            continue
        met = {name for stack in stacks for name in _met(stack) if name in every}
        alone = [name for name, copies in every.items() if name not in met and not set(copies) & set(spoken)]
        if alone:
            told = f"no bore or slot of {listed(alone, 'or')} lies with another's on the axis of {hardware.name}"
            yield f"{' to '.join(hardware.joins)}: {told}, so what turns there is not known"


def no_place(job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim], missing: Sequence[str]) -> str:
    """Say that the place of copies is not known, and why, where they overlap as drawn with what hardware joins them to.

    A part with several copies is drawn as its first one.
    """
    overlap = overlap_as_drawn(job, solids, claims, {part_of(copy) for copy in missing})
    why = "" if overlap is None else f": {overlap.told}"
    return f"the place of {listed(missing)} is not known{why}"


def _met(stack: BoreStack) -> set[str]:
    """Return the parts that lie on one axis with another, by bores or slots; nothing where there is one alone."""
    found = {part_of(copy) for copy in (*stack.copies, *(slot[0] for slot in stack.slots))}
    return found if len(found) > 1 else set()
