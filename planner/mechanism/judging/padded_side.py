"""Padding of which nobody says on which side it lies: whether it could stop a joint short of what it ought to reach."""

from __future__ import annotations

import math
from functools import lru_cache

from planner.mechanism.judging.move_ends import level_of
from planner.mechanism.judging.move_range import MoveEnd
from planner.mechanism.judging.range_ends import KNOTS, end_over
from planner.mechanism.movement.move_records import JointMove
from planner.mechanism.movement.movement import Movement
from planner.mechanism.movement.padding_bodies import unsided_bodies
from planner.mechanism.range.device_bodies import Body
from planner.mechanism.range.free_range import ranges_of
from planner.mechanism.range.joint_range import JointRange, at_size

SIDES_KEPT_N = 16
"""So many parts, each at a scale, are kept with their padding, for all joints."""
TRIED = (KNOTS[0], 1.0)
"""Foam does not grow: where it stops nothing in the smallest device and as drawn, it stops nothing."""


def padded_ends(movement: Movement, joint: JointMove) -> tuple[MoveEnd | None, MoveEnd | None]:
    """Return both ends of a joint with such padding on its worst side; None where it stops nothing.

    The ``doubt`` of an end is the part whose padding it is.
    """
    parts = dict.fromkeys(padding.part for padding in movement.job.paddings)
    unsided = [part for part in parts if movement.job.part(part).skin_toward is None]
    if joint.needs_deg is None or not unsided:
        return None, None
    found: list[MoveEnd | None] = []
    for side in (0, 1):
        ends = [end for part in unsided if (end := _padded(movement, joint, part, side)) is not None]
        found.append(min(ends, key=lambda end: abs(end.at(1.0) or math.inf), default=None))
    return found[0], found[1]


def _padded(movement: Movement, joint: JointMove, part: str, side: int) -> MoveEnd | None:
    """Return one end with the padding of one part on its worst side."""

    def end(s: float) -> float | None:
        return _nearest(movement, joint.name, part, s, side)

    if all(end(s) == movement.range_at(joint.name, s).free_deg[side] for s in TRIED):
        return None
    curve = end_over(end, side, level_of(joint, side))
    return MoveEnd(curve=curve, meets=f"the padding of {part}", reach_mm=0.0, soft=True, doubt=part)


def _nearest(movement: Movement, name: str, part: str, s: float, side: int) -> float | None:
    """Return the nearest end at a scale over all sides on which the padding may lie; None where nothing stops it."""
    key = name, part, s
    if key not in movement.padded:
        movement.padded[key] = _with_padding(movement, name, part, s)
    ends = (movement.padded[key].free_deg[side], movement.range_at(name, s).free_deg[side])
    stopped = [end for end in ends if end is not None]
    return min(stopped, default=None) if side else max(stopped, default=None)


def _with_padding(movement: Movement, name: str, part: str, s: float) -> JointRange:
    """Return how far a joint goes with padding on all sides at once, which each stop it where they would alone.

    What nobody has stated of the hardware is left out.
    """
    job, solids, mechanism = movement.job, movement.solids, movement.mechanism
    soft = _on_all_sides(movement, part, s)
    found = ranges_of(job, solids, mechanism, factor=s, soft=soft, only=name, at_once=False, sure=True, gaps=False)
    return at_size(mechanism.joint(name), found.of(name), s)


@lru_cache(maxsize=SIDES_KEPT_N)
def _on_all_sides(movement: Movement, part: str, s: float) -> tuple[Body, ...]:
    """Return the padding of a part at a scale on every side on which it may lie."""
    sides = unsided_bodies(part, movement.job, movement.solids, movement.mechanism, s)
    return tuple(body for bodies in sides for body in bodies)
