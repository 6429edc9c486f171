"""Fit: whether it still works at this size, on this printer, with hardware that does not scale.

1. ``sizing(job, solids, today)`` gives the scale and its reason; ``choose_pose(part, survey)`` which way up.
2. ``rules_of(job, surveys, downs)`` binds every rule to every feature it speaks of.
3. ``check(bound, scale)`` asks them at a scale; ``window(rules, scale)`` solves the same rules for the scale.
4. ``with_guesses(job, surveys)`` fills in what a folder of meshes says by itself.
"""

from planner.fit.pose import PoseChoice, choose_pose
from planner.fit.window import Interval, Reach, Window

__all__ = [
    "Interval",
    "PoseChoice",
    "Reach",
    "Window",
    "choose_pose",
]
