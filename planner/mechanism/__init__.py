"""Mechanism: where the copies of a device's parts stand, how they move on each other, and how far.

1. ``Frame`` says where a copy stands: turned about its mesh's origin, then shifted.
"""

from planner.mechanism.places.frame import STILL, Frame

__all__ = [
    "STILL",
    "Frame",
]
