"""Mechanism: where the copies of a device's parts stand, how they move on each other, and how far.

1. ``Frame`` says where a copy stands: turned about its mesh's origin, then shifted.
2. ``mechanism_of(job, solids, surveys, claims)`` places the copies and finds the joints; None where nothing moves.
3. ``mechanism.frames_at({"deck to jaw": 20.0})`` says where every copy stands then, closed loops solved.
"""

from planner.mechanism.joints.bore_stacks import BoreStack, PlacedBore
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism, mechanism_of
from planner.mechanism.places.frame import STILL, Frame, rotation
from planner.mechanism.places.placed import Placed, placed

__all__ = [
    "STILL",
    "BoreStack",
    "Frame",
    "LockedError",
    "Mechanism",
    "MovingJoint",
    "Placed",
    "PlacedBore",
    "mechanism_of",
    "placed",
    "rotation",
]
