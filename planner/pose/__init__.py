"""Pose: which way up a part is printed, with the reason, and what a bed has room for.

1. ``choose_pose(part, survey, solid, ...)`` gives the pose at the least cost and the runner-up, with all terms.
2. ``bed_for(hull_mm, poses, printers)`` names the first bed that takes a part; ``bed_room`` says by how much.
"""

from planner.pose.bed_of_any_shape import clear_pieces, largest_on
from planner.pose.bed_room import BedRoom, bed_for, bed_room
from planner.pose.choose_pose import PoseChoice, choose_pose, share_that_turns, stressed_choice, toward
from planner.pose.filled_openings import UPRIGHT_COS, uprightness
from planner.pose.layer_risks import CostTerm, load_term

__all__ = [
    "UPRIGHT_COS",
    "BedRoom",
    "CostTerm",
    "PoseChoice",
    "bed_for",
    "bed_room",
    "choose_pose",
    "clear_pieces",
    "largest_on",
    "load_term",
    "share_that_turns",
    "stressed_choice",
    "toward",
    "uprightness",
]
