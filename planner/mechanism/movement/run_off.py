"""Where a slide has left what guides it: nothing meets there, and yet it is not where it ought to be."""

from __future__ import annotations

from itertools import product

from planner.cache import kept, key_of
from planner.mechanism.joints.slide_ways import guides
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.movement.move_records import JointMove
from planner.mechanism.movement.movement import Movement

OFF_VERSION = 1
"""Raised whenever an answer changes, so that kept ones are not trusted."""
Off = tuple[bool, bool]
"""Whether nothing guides a slide any more at the low and at the high end of what is needed of it."""
NOT_OFF = False, False


def run_off(movement: Movement, joint: JointMove) -> Off:
    """Return at which ends of its need a slide is out of the faces that guide it as drawn.

    Parts grow alike, so it is so at every size. A joint that turns, that a closed loop holds, or that no faces guide as
    drawn is off at neither end.
    """
    mechanism = movement.mechanism
    moving = next((one for one in mechanism.joints if one.name == joint.name), None)
    looped = any(joint.name in loop for loop in mechanism.loops)
    if moving is None or moving.kind != "slides" or moving.needs_deg is None or looped:
        return NOT_OFF
    solids = [(name, solid.sha256, solid.vertices_mm.tobytes()) for name, solid in sorted(movement.solids.items())]
    frames = [(copy, frame.matrix().tobytes()) for copy, frame in mechanism.frames.items()]
    key = key_of(OFF_VERSION, solids, frames, [sorted(group) for group in mechanism.groups], moving)
    return kept("mechanism", key, tuple[bool, bool], lambda: _off(movement, mechanism, joint.name))


def _off(movement: Movement, mechanism: Mechanism, name: str) -> Off:
    """Ask at both ends whether anything guides it."""
    moving = mechanism.joint(name)
    one, other = (next(group for group in mechanism.groups if part in group) for part in moving.parts)
    pairs = sorted(product(one, other), key=lambda pair: pair != moving.parts)

    def held(value: float) -> bool:
        frames = mechanism.frames_at({name: value})
        known = [pair for pair in pairs if set(pair) <= frames.keys()]
        return any(guides(pair, moving.axis, mechanism.stacks, movement.solids, frames) for pair in known)

    if not held(0.0):
        return NOT_OFF
    low, high = moving.needs_deg or (0.0, 0.0)
    return not held(low), not held(high)
