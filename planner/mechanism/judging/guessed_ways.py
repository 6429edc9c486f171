"""What a joint's way is only taken for: a slide that faces alone show, a copy that may stand at any angle."""

from __future__ import annotations

import numpy as np

from planner.job import part_of
from planner.mechanism.joints.moving_joint import GUIDED
from planner.mechanism.movement.movement import Movement

ROUND_SHARE = 0.995
TURNED_DEG = (37.0, 101.0)
"""A body that shares so much with itself turned by these about an axis is round about it."""


def guided_question(movement: Movement, name: str) -> str:
    """Return the question on which it hangs how a joint goes: whether what only faces guide slides; else nothing."""
    mechanism = movement.mechanism
    looped = {name}.union(*(loop for loop in mechanism.loops if name in loop))
    taken = [one for one in mechanism.joints if one.name in looped and one.why == GUIDED]
    return f"Does {taken[0].parts[1]} slide on {taken[0].parts[0]}, and turn nowhere?" if taken else ""


def at_any_angle(movement: Movement) -> tuple[str, ...]:
    """Return the copies that may stand at any angle about what holds them, but for those that are round about it."""
    mechanism = movement.mechanism
    return tuple(copy for copy in mechanism.placed.free if not _round(movement, copy))


def _round(movement: Movement, copy: str) -> bool:
    """Return whether a copy is round about an axis that hardware has in it."""
    mechanism = movement.mechanism
    shape = movement.solids[part_of(copy)].manifold
    if shape is None:
        return False
    there = shape.transform(mechanism.frames[copy].matrix())
    for one in (stack.of(copy)[0].bore for stack in mechanism.stacks if copy in stack.copies):
        turned = [mechanism.frames[copy].turned_about(one.axis, one.centre_mm, deg) for deg in TURNED_DEG]
        shares = [float((there ^ shape.transform(frame.matrix())).volume()) for frame in turned]
        if float(np.min(shares)) > ROUND_SHARE * float(there.volume()):
            return True
    return False
