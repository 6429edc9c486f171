"""Padding of which nobody says on which side it lies: whether it could stop a joint short of what it ought to reach."""

from __future__ import annotations

import math
from collections.abc import Callable

from planner.mechanism.judging.move_ends import level_of
from planner.mechanism.judging.move_range import MoveEnd
from planner.mechanism.judging.range_ends import KNOTS, end_over
from planner.mechanism.moved.moved import JointMove
from planner.mechanism.moved.movement import Movement, at_size
from planner.mechanism.moved.padding_bodies import unsided_bodies
from planner.mechanism.range.free_range import ranges_of

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
    ends = {s: _end(movement, joint.name, part, s, side) for s in TRIED}
    if all(end == movement.range_at(joint.name, s).free_deg[side] for s, end in ends.items()):
        return None
    curve = end_over(_once(lambda s: _end(movement, joint.name, part, s, side), ends), side, level_of(joint, side))
    return MoveEnd(curve=curve, meets=f"the padding of {part}", reach_mm=0.0, soft=True, doubt=part)


def _once(value: Callable[[float], float | None], known: dict[float, float | None]) -> Callable[[float], float | None]:
    """Return a function that is asked once for each scale."""

    def asked(s: float) -> float | None:
        if s not in known:
            known[s] = value(s)
        return known[s]

    return asked


def _end(movement: Movement, name: str, part: str, s: float, side: int) -> float | None:
    """Return the nearest end at a scale over all sides on which the padding may lie; None where nothing stops it."""
    job, solids, mechanism = movement.job, movement.solids, movement.mechanism
    ends = [movement.range_at(name, s).free_deg[side]]
    for bodies in unsided_bodies(part, job, solids, mechanism, s):
        found = ranges_of(
            job, solids, mechanism, factor=s, soft=bodies, only=name, at_once=False, sure=True, gaps=False
        )
        ends.append(at_size(mechanism.joint(name), found.of(name), s).free_deg[side])
    stopped = [end for end in ends if end is not None]
    return min(stopped, default=None) if side else max(stopped, default=None)
