"""Size: which scale, why, between which sizes the device works, and what would widen that.

1. ``sizing(job, solids, today)`` gives the scale and its reason.
2. ``window(rules, scale)`` solves the bound rules for the scale; ``widenings`` tries what would widen it.
"""

from planner.size.sizes_tried import Asked, tried_rules
from planner.size.sizing import Sizing, sizing
from planner.size.widen import Widening, nearest_percent, widenings
from planner.size.window import Interval, Reach, Window, feature_windows, part_window, window

__all__ = [
    "Asked",
    "Interval",
    "Reach",
    "Sizing",
    "Widening",
    "Window",
    "feature_windows",
    "nearest_percent",
    "part_window",
    "sizing",
    "tried_rules",
    "widenings",
    "window",
]
