"""Joints of a device: from axes that one pin joins, from what is stated, and which copies move as one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Job, part_of
from planner.job import Joint as StatedJoint
from planner.mechanism.joints.bare_axes import BareAxis, bare_axes, peg_axes, ring_axes
from planner.mechanism.joints.bore_stacks import BoreStack
from planner.mechanism.joints.guided_ends import guided_ends, guided_in_slot, guided_strays
from planner.mechanism.joints.moving_joint import GUIDED, Kind, MovingJoint, joint_name, made, named_once
from planner.mechanism.joints.slide_ways import slide_axis
from planner.mechanism.joints.slot_questions import slot_questions
from planner.mechanism.joints.slotted_pins import crossed_slots, in_slot_of, loose_in_slot, slotted_counts, slotted_pins
from planner.mechanism.joints.stated_joints import LOOSE, MOVES, Pair
from planner.mechanism.joints.unmet_pins import no_place, unmet_pins
from planner.mechanism.places.frame import Frame
from planner.mechanism.places.printed_pins import held_pins
from planner.mesh import Solid
from planner.survey import Survey

PIN = "it is the pin of that axis"
NO_AXIS = "no bores of both lie on one axis within a pin's reach, and no round peg of one fills a bore of the other"


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundJoints:
    """All joints, fixed ones too; copies tied by a cord or a strap alone; what could not be told."""

    joints: tuple[MovingJoint, ...]
    tied: tuple[Pair, ...]
    unsolved: tuple[str, ...]
    notes: tuple[str, ...]
    asked: tuple[Pair, ...] = ()
    """Copies of which nobody says how a pin of the second moves in a slot of the first."""


def found_joints(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
    stacks: Sequence[BoreStack],
    stated: Mapping[Pair, StatedJoint],
    claims: Sequence[Claim],
) -> FoundJoints:
    """Return how every two copies that meet are joined; what turns on a pin and has no place is unsolved."""
    shared = _shared(job, stacks, stated)
    joints: list[MovingJoint] = []
    unsolved: list[str] = []
    open_: list[Pair] = []
    slotted = slotted_counts(stacks, stated)
    crossed = crossed_slots(stacks, surveys, frames)
    rings = ring_axes(claims, surveys, frames)
    joints += _in_bearings(rings, {*stated, *shared, *slotted})
    for pair in dict.fromkeys((*stated, *shared, *slotted)):
        said, axes = stated.get(pair), shared.get(pair, [])
        if said is not None and said.how in LOOSE and not axes:
            continue
        if missing := [copy for copy in pair if copy not in frames]:
            if said is not None and said.how in MOVES:
                unsolved.append(f"{joint_name(pair, said)}: {no_place(job, solids, claims, missing)}")
            continue
        one_pin = pair not in stated and pair not in shared and slotted[pair] == 1
        if one_pin and not guided_in_slot(pair, stacks, solids, surveys, frames):
            open_.append(pair)
            continue
        pins = [] if axes else crossed.get(pair) or crossed.get(pair[::-1], [])
        for told in _trammel(pair, said, pins) or [_joint(pair, said, axes, stacks, (solids, surveys, frames), rings)]:
            if isinstance(told, str):
                unsolved.append(told)
            else:
                joints.append(replace(told, why=GUIDED) if one_pin else told)
    unsolved += unmet_pins(job, claims, frames, stacks, _copies(stated, MOVES), solids)
    joints += _shown(job, joints, open_, solids, frames)
    joints += _held(job, claims, frames, stated)
    in_slots = _in_slots(open_, joints, stacks, surveys, frames)
    joints += in_slots.values()
    open_ = [pair for pair in open_ if pair not in in_slots]
    unsolved += slot_questions(joints, open_)
    return FoundJoints(
        joints=named_once(joints),
        tied=tuple(pair for pair, said in stated.items() if said.how in LOOSE),
        unsolved=tuple(dict.fromkeys(unsolved)),
        notes=_notes(joints),
        asked=tuple(open_),
    )


def _in_bearings(rings: Mapping[Pair, Sequence[BareAxis]], known: set[Pair]) -> list[MovingJoint]:
    """Return the joints of shafts that lie in one bearing, or in several on one line, and of which nothing is said."""
    return [
        replace(
            made(pair, None, "turns", axes[0].axis, at_mm=axes[0].centre_mm, why="a bearing carries it"),
            ring=axes[0].ring,
        )
        for pair, axes in rings.items()
        if len(axes) == 1 and not known & {pair, pair[::-1]}
    ]


def _copies(stated: Mapping[Pair, StatedJoint], hows: Sequence[str]) -> set[str]:
    """Return the copies that a statement of some kinds speaks of."""
    return {copy for pair, said in stated.items() if said.how in hows for copy in pair}


def _held(
    job: Job, claims: Sequence[Claim], frames: Mapping[str, Frame], stated: Mapping[Pair, StatedJoint]
) -> list[MovingJoint]:
    """Return what holds printed pins of which nothing is stated: each goes with one of the copies that it lies in."""
    return [
        made((holder, copy), None, "fixed", axis, at_mm=at, why=PIN)
        for copy, holder, axis, at in held_pins(job, claims, frames)
        if not any(copy in pair for pair in stated)
    ]


def _shown(
    job: Job,
    joints: Sequence[MovingJoint],
    open_: Sequence[Pair],
    solids: Mapping[str, Solid],
    frames: Mapping[str, Frame],
) -> list[MovingJoint]:
    """Return the slides that faces alone show."""
    found = (*guided_ends(job, joints, solids, frames), *guided_strays(job, joints, open_, solids, frames))
    return [made(pair, None, "slides", way, at_mm=at, why=GUIDED) for pair, way, at in found]


def _notes(joints: Sequence[MovingJoint]) -> tuple[str, ...]:
    """Return what a reader should know of joints that faces alone show."""
    return tuple(
        f"{joint.parts[1]} is taken to slide on {joint.parts[0]}, whose faces guide it: if not, say so with [[joint]]"
        for joint in joints
        if joint.why == GUIDED
    )


def _in_slots(
    pairs: Sequence[Pair],
    joints: Sequence[MovingJoint],
    stacks: Sequence[BoreStack],
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
) -> dict[Pair, MovingJoint]:
    """Return the joints of pins that slide along a slot and turn in it, by the copies that they join."""
    found = {}
    for pair, stack, way in slotted_pins(pairs, joints, stacks, surveys, frames):
        found[pair] = _pin_in_slot(pair, None, stack, way)
    return found


def _pin_in_slot(pair: Pair, said: StatedJoint | None, stack: BoreStack, way: Vec3) -> MovingJoint:
    """Return the joint of a pin of the second copy that slides along a slot of the first and turns in it."""
    pin, why = stack.bores[0].bore, f"{stack.pin.name} slides and turns in the slot of {pair[0]}"
    found = made(pair, said, "slides", way, at_mm=pin.centre_mm, pin=stack.pin.name, why=why)
    return replace(found, about=pin.axis)


def _shared(job: Job, stacks: Sequence[BoreStack], stated: Mapping[Pair, StatedJoint]) -> dict[Pair, list[BoreStack]]:
    """Return the axes that two copies share, the one that stands first: as stated, else the first that a pin joins."""
    found: dict[Pair, list[BoreStack]] = {}
    for stack in stacks:
        base = _base(job, stack, stated)
        for other in stack.copies:
            if other != base:
                pair = (base, other)
                found.setdefault(pair[::-1] if pair[::-1] in stated else pair, []).append(stack)
    return found


def _base(job: Job, stack: BoreStack, stated: Mapping[Pair, StatedJoint]) -> str:
    """Return the copy of a stack that the others move on."""
    standing = {pair[0] for pair in stated if set(pair) <= set(stack.copies)}
    moving = {pair[1] for pair in stated if set(pair) <= set(stack.copies)}
    joins = stack.pin.joins
    order = [part.name for part in job.parts]

    def rank(copy: str) -> tuple[bool, bool, int, int]:
        part = part_of(copy)
        at = joins.index(part) if part in joins else -1
        return copy not in standing, copy in moving, at, order.index(part)

    return min(stack.copies, key=rank)


def _joint(
    pair: Pair,
    said: StatedJoint | None,
    axes: Sequence[BoreStack],
    stacks: Sequence[BoreStack],
    device: tuple[Mapping[str, Solid], Mapping[str, Survey], Mapping[str, Frame]],
    rings: Mapping[Pair, list[BareAxis]],
) -> MovingJoint | str:
    """Return how two copies are joined; a sentence where it is stated that they move and not known how."""
    how = said.how if said is not None and said.how in MOVES else None
    if said is None and not axes:
        how = "slides" if loose_in_slot(pair, stacks) else "fixed"
    lines = _lines(axes)
    turning = [line for line in lines if any(_turns(stack, pair) for stack in line)]
    if how == "slides":
        found = slide_axis(pair, stacks, *device)
        if isinstance(found, str):
            return f"{joint_name(pair, said)}: {found}"
        return made(pair, said, "slides", found[0], at_mm=found[1], why=found[2])
    if how == "turns":
        bearing = rings.get(pair) or rings.get(pair[::-1]) or []
        return _stated_turn(pair, said, turning or lines, stacks, device, bearing)
    if how is None and len(lines) == 1 and turning:
        return _about(pair, said, lines[0], "turns", f"{lines[0][0].pin.name} turns in it")
    why = "stated" if how else f"{len(lines)} axes" if len(lines) > 1 else said.how if said else "clamped on one axis"
    if lines:
        return _about(pair, said, lines[0], "fixed", why)
    return made(pair, said, "fixed", (0.0, 0.0, 1.0), at_mm=device[2][pair[1]].point((0.0, 0.0, 0.0)), why=why)


def _trammel(
    pair: Pair, said: StatedJoint | None, pins: Sequence[tuple[Pair, BoreStack, Vec3]]
) -> Sequence[MovingJoint | str]:
    """Return the joints of two pins in slots that run different ways: what is stated is that of the first.

    Nothing where there are no such pins, or the job says that they hold fast; a sentence where it says that they slide.
    """
    if not pins or (said is not None and said.how not in ("turns", "slides")):
        return []
    if said is not None and said.how == "slides":
        return [f"{joint_name(pair, said)}: stated to slide, but its slots run different ways"]
    return [_pin_in_slot(owners, None if n else said, stack, way) for n, (owners, stack, way) in enumerate(pins)]


def _stated_turn(
    pair: Pair,
    said: StatedJoint | None,
    lines: Sequence[Sequence[BoreStack]],
    stacks: Sequence[BoreStack],
    device: tuple[Mapping[str, Solid], Mapping[str, Survey], Mapping[str, Frame]],
    bearing: list[BareAxis],
) -> MovingJoint | str:
    """Return a joint that is stated to turn, about the one axis that both share; a sentence where there is none.

    Where no pin is named in bores of both, about the one in a slot, or about bores, a printed peg or a bearing as
    drawn.
    """
    bare = [] if lines else bare_axes(pair, *device[1:]) or peg_axes(pair, *device[1:]) or bearing
    lines = lines or [[stack] for stack in stacks if in_slot_of(stack, pair)]
    if len(lines or bare) != 1:
        told = f"they share {len(lines or bare)} axes" if lines or bare else NO_AXIS
        return f"{joint_name(pair, said)}: stated to turn, but {told}"
    if lines:
        return _about(pair, said, lines[0], "turns", "stated")
    found = made(pair, said, "turns", bare[0].axis, at_mm=bare[0].centre_mm, why="stated")
    return replace(found, bores=bare[0].bores, peg_mm=bare[0].peg_mm, ring=bare[0].ring)


def _lines(axes: Sequence[BoreStack]) -> list[list[BoreStack]]:
    """Return the stacks line by line: two hinges on one line are one axis."""
    found: list[list[BoreStack]] = []
    for stack in axes:
        mine = next((line for line in found if _in_line(line[0], stack)), None)
        if mine is None:
            found.append([stack])
        else:
            mine.append(stack)
    return found


def _in_line(one: BoreStack, other: BoreStack) -> bool:
    """Return whether two stacks lie on one line."""
    a, b = one.bores[0].bore, other.bores[0].bore
    between = np.asarray(b.centre_mm) - np.asarray(a.centre_mm)
    beside = np.linalg.norm(np.cross(between, np.asarray(a.axis)))
    return abs(float(np.asarray(a.axis) @ np.asarray(b.axis))) > 0.999 and float(beside) < 0.5


def _turns(stack: BoreStack, pair: Pair) -> bool:
    """Return whether one of two copies turns on the pin of a stack, or on a bearing in it.

    A screw with a locking nut is tightened so that what it joins still moves.
    """
    mine = [one for copy in pair for one in stack.of(copy)]
    return any(one.turning or (one.claim.hardware.nut == "locking" and one.claim.fit == "sliding") for one in mine)


def _about(pair: Pair, said: StatedJoint | None, line: Sequence[BoreStack], kind: Kind, why: str) -> MovingJoint:
    """Return a joint about the line of some stacks, in the sense of the moving copy's bore."""
    bores = [one for stack in line for one in stack.bores if one.copy in pair]
    mine = next((one for one in bores if one.copy == pair[1]), bores[0])
    return made(pair, said, kind, mine.bore.axis, at_mm=mine.bore.centre_mm, pin=line[0].pin.name, bores=bores, why=why)
