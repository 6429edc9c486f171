"""Mechanism: where the copies of a device's parts stand, how they move on each other, and how far.

1. ``Frame`` says where a copy stands: turned about its mesh's origin, then shifted.
2. ``mechanism_of(job, solids, surveys, claims)`` places the copies and finds the joints; None where nothing moves.
4. ``move_rules(job, at)`` judges range, travel, pull, return and play; ``at(s)`` gives a :class:`Moved`.
3. ``mechanism.frames_at({"deck to jaw": 20.0})`` says where every copy stands then, closed loops solved.
"""

from planner.mechanism.joints.bore_stacks import BoreStack, PlacedBore
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.judging.bind_moves import move_rules
from planner.mechanism.mechanism import Mechanism, mechanism_of
from planner.mechanism.moved.moved import CordMove, JointMove, Moved, PinForce, Stop, Tip
from planner.mechanism.places.frame import STILL, Frame, rotation
from planner.mechanism.places.placed import Placed, placed

__all__ = [
    "STILL",
    "BoreStack",
    "CordMove",
    "Frame",
    "JointMove",
    "LockedError",
    "Mechanism",
    "Moved",
    "MovingJoint",
    "PinForce",
    "Placed",
    "PlacedBore",
    "Stop",
    "Tip",
    "mechanism_of",
    "move_rules",
    "placed",
    "rotation",
]
