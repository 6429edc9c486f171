"""Size: which scale, why, between which sizes the device works, and what would widen that.

1. ``sizing(job, solids, today)`` gives the scale and its reason.
2. ``window(rules, scale)`` solves the bound rules for where the device works, and where it fits the person;
   ``widenings`` tries what would widen it.
"""

from planner.size.measure_range import range_rules
from planner.size.measures_agree import MeasureScale
from planner.size.outgrown import Outgrown, outgrown
from planner.size.sizing import Sizing, sizing
from planner.size.widen import OPEN_HIGH, OPEN_LOW, Widening, nearest_percent, widenings
from planner.size.window import Interval, Reach, Window, feature_windows, part_window, window

__all__ = [
    "OPEN_HIGH",
    "OPEN_LOW",
    "Interval",
    "MeasureScale",
    "Outgrown",
    "Reach",
    "Sizing",
    "Widening",
    "Window",
    "feature_windows",
    "nearest_percent",
    "outgrown",
    "part_window",
    "range_rules",
    "sizing",
    "widenings",
    "window",
]
