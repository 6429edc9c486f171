"""Pose: which way up a part is printed, with the reason, and what a bed has room for.

1. ``choose_pose(part, survey, bed=..., warp=...)`` gives the pose and the runner-up.
2. ``bed_for(hull_mm, poses, printers)`` names the first bed that takes a part; ``bed_room`` says by how much.
"""

from planner.pose.bed_room import BedRoom, bed_for, bed_room
from planner.pose.choose_pose import UPRIGHT_COS, PoseChoice, choose_pose, toward, uprightness
from planner.pose.clear_ground import clear_pieces, largest_on

__all__ = [
    "UPRIGHT_COS",
    "BedRoom",
    "PoseChoice",
    "bed_for",
    "bed_room",
    "choose_pose",
    "clear_pieces",
    "largest_on",
    "toward",
    "uprightness",
]
