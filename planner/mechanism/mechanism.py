"""The mechanism of a device: its copies in place, its joints, and where every copy stands when joints have moved."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from planner.assembly import Claim
from planner.cache import kept, key_of
from planner.job import Job, Joint
from planner.mechanism.joints.bore_stacks import BoreStack, bore_stacks
from planner.mechanism.joints.found_joints import found_joints
from planner.mechanism.joints.linkage import Linkage, linkage_of
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.joints.rigid_groups import rigid_groups
from planner.mechanism.joints.slide_ways import with_slots
from planner.mechanism.joints.stated_joints import Pair, stated_joints
from planner.mechanism.joints.straight_axes import straight_axes
from planner.mechanism.places.frame import Frame
from planner.mechanism.places.placed import Placed, placed
from planner.mesh import Solid
from planner.survey import Survey

PLACES_VERSION = 5
"""Raised whenever a place changes, so that kept ones are not trusted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mechanism:
    """A device that moves.

    Parameters
    ----------
    placed
        Where its copies stand, and which could not be placed.
    joints
        Those that move, what is stated of them included; fixed ones are in ``groups``.
    groups
        Copies that move as one body, the standing one first.
    loops
        Names of the joints of each closed loop.
    tied
        Copies that a cord or a strap holds: what hangs on nothing else swings aside and stops nothing.
    stacks
        The axes of all hardware in the device.
    unsolved
        Joints that are stated to move and could not be told, each a sentence.
    notes
        What else a reader should know.
    """

    placed: Placed
    joints: tuple[MovingJoint, ...]
    groups: tuple[frozenset[str], ...]
    loops: tuple[tuple[str, ...], ...]
    tied: frozenset[str]
    stacks: tuple[BoreStack, ...]
    unsolved: tuple[str, ...]
    notes: tuple[str, ...]
    linkage: Linkage
    asked: tuple[tuple[str, str], ...] = ()
    """Copies of which nobody says how a pin of the second moves in a slot of the first."""

    @property
    def frames(self) -> Mapping[str, Frame]:
        """Where every placed copy stands as drawn."""
        return self.placed.copies

    def joint(self, name: str) -> MovingJoint:
        """Return a joint by its name; KeyError where there is none."""
        for joint in self.joints:
            if joint.name == name:
                return joint
        raise KeyError(name)

    def frames_at(self, values: Mapping[str, float]) -> dict[str, Frame]:
        """Return where every copy stands with some joints at given angles (or mm), counted from the drawn place.

        Joints that are not named stay as drawn, but for those that a closed loop takes along.

        Raises
        ------
        LockedError
            Where a closed loop cannot be brought there.
        """
        moved, group_of = self.linkage.moves_at(values), self._group_of
        return {copy: moved[group_of[copy]].after(frame) for copy, frame in self.frames.items() if copy in group_of}

    @property
    def _group_of(self) -> dict[str, int]:
        """The number of every copy's group."""
        return {copy: n for n, group in enumerate(self.groups) for copy in group}

    def values_at(self, values: Mapping[str, float]) -> dict[str, float]:
        """Return the value of every joint with some at given angles (or mm): the followers of a loop among them."""
        return self.linkage.values_at(values)


def places_of(job: Job, solids: Mapping[str, Solid], surveys: Mapping[str, Survey], claims: Sequence[Claim]) -> Placed:
    """Return where every copy stands, whether anything moves or not; kept by what it depends on."""
    key = key_of(PLACES_VERSION, *_facts(job, solids, claims))
    return kept("mechanism", key, Placed, lambda: placed(job, solids, surveys, claims))


def _facts(job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim]) -> tuple[object, ...]:
    """Return what places depend on."""
    return (
        [(name, solid.sha256, solid.vertices_mm.tobytes(), solid.faces.tobytes()) for name, solid in solids.items()],
        # Of parts what places ask: not which file, folder, colour, pose or load.
        [(part.name, part.count, part.scale_percent, part.ignore_bores) for part in job.parts],
        (job.hardware, job.joints, job.gaps, job.places, tuple(claims)),
    )


def mechanism_of(
    job: Job, solids: Mapping[str, Solid], surveys: Mapping[str, Survey], claims: Sequence[Claim]
) -> Mechanism | None:
    """Return the mechanism of a device; None where nothing moves."""
    facts = _facts(job, solids, claims)
    where = places_of(job, solids, surveys, claims)
    stacks = tuple(with_slots(stack, surveys, where.copies) for stack in bore_stacks(claims, where.copies))
    in_place = [(copy, frame.matrix().tobytes()) for copy, frame in where.copies.items()]
    key = key_of(PLACES_VERSION, "stated", *facts, in_place)
    stated = kept("mechanism", key, dict[Pair, Joint], lambda: stated_joints(job, solids, where.copies, stacks))
    found = found_joints(job, solids, surveys, where.copies, stacks, stated, claims)
    rigid = rigid_groups(where.copies, found.joints)
    if not rigid.joints and not found.unsolved:
        return None
    straight = straight_axes(rigid.joints)
    joints = tuple(replace(joint, zero_known=not set(joint.parts) & set(where.free)) for joint in straight)
    linkage = linkage_of(replace(rigid, joints=joints), _driven(job, joints))
    return Mechanism(
        placed=where,
        joints=linkage.joints,
        groups=linkage.groups,
        loops=linkage.loops,
        tied=frozenset(copy for pair in found.tied for copy in pair),
        stacks=stacks,
        unsolved=found.unsolved,
        notes=(*found.notes, *rigid.notes),
        linkage=linkage,
        asked=found.asked,
    )


def _driven(job: Job, joints: Sequence[MovingJoint]) -> tuple[str, ...]:
    """Return the joints that lead in a closed loop: those that a cord drives, then those that the job speaks of."""
    cords = [cord for cord in job.cords if cord.kind != "elastic"]
    ends = {cord.path[-1].copy if cord.path else cord.drives for cord in cords}
    pulled = [
        joint.name
        for copies in (ends, {cord.drives for cord in cords})
        for joint in joints
        if set(joint.parts) & copies
    ]
    spoken = [joint.name for joint in joints if joint.needs_deg or joint.why == "stated"]
    return tuple(dict.fromkeys((*pulled, *spoken)))
