"""Mechanism: where the copies of a device's parts stand, how they move on each other, and how far.

1. ``Frame`` says where a copy stands: turned about its mesh's origin, then shifted.
2. ``mechanism_of(job, solids, surveys, claims)`` places the copies and finds the joints; None where nothing moves.
3. ``mechanism.frames_at({"deck to jaw": 20.0})`` says where every copy stands then, closed loops solved.
4. ``ranges_of(job, solids, mechanism, clearance_mm=..., factor=...)`` says how far every joint goes, and what stops it.
5. ``movement_of(...)`` is asked at any size for a :class:`Moved`; ``move_rules(job, movement)`` judges it.
"""

from planner.mechanism.cord_effects.held_pins import held_pins
from planner.mechanism.cord_effects.tip_loads import CopyLoads
from planner.mechanism.force.point_load import PointLoad
from planner.mechanism.joints.bare_axes import peg_axes
from planner.mechanism.joints.bore_stacks import BoreStack, PlacedBore, bore_stacks
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.judging.move_rules import move_rules, unmoved_rules
from planner.mechanism.mechanism import Mechanism, mechanism_of, places_of
from planner.mechanism.movement.move_records import CordMove, JointMove, Moved, PinForce, Tip, still
from planner.mechanism.movement.movement import Movement, movement_of
from planner.mechanism.movement.stop_words import stop_words
from planner.mechanism.places.frame import STILL, Frame, rotation
from planner.mechanism.places.off_part import Landing
from planner.mechanism.places.placed import Placed, placed
from planner.mechanism.range.free_range import ranges_of
from planner.mechanism.range.joint_range import JointRange, LeastGap, Ranges, Stop, Together

__all__ = [
    "STILL",
    "BoreStack",
    "CopyLoads",
    "CordMove",
    "Frame",
    "JointMove",
    "JointRange",
    "Landing",
    "LeastGap",
    "LockedError",
    "Mechanism",
    "Moved",
    "Movement",
    "MovingJoint",
    "PinForce",
    "Placed",
    "PlacedBore",
    "PointLoad",
    "Ranges",
    "Stop",
    "Tip",
    "Together",
    "bore_stacks",
    "held_pins",
    "mechanism_of",
    "move_rules",
    "movement_of",
    "peg_axes",
    "placed",
    "places_of",
    "ranges_of",
    "rotation",
    "still",
    "stop_words",
    "unmoved_rules",
]
