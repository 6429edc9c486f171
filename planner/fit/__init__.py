"""Fit: whether it still works at this size, on this printer, with hardware that does not scale.

1. ``rules_of(job, surveys, poses)`` binds every rule to every feature it speaks of.
2. ``check(rules, scale)`` gives the findings at a scale.
3. ``window(rules, scale)`` solves the same rules for the scale.
"""

from planner.fit.pose import PoseChoice
from planner.fit.window import Interval, Reach, Window

__all__ = [
    "Interval",
    "PoseChoice",
    "Reach",
    "Window",
]
