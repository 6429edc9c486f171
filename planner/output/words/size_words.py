"""Sizes that work, in words."""

from __future__ import annotations

from planner.digits import percent_or_less, percent_or_more
from planner.size import Interval, Reach


def interval_words(interval: Interval, of_factor: float = 1.0) -> str:
    """Return one interval, its ends rounded inward; ``of_factor`` turns percents of one size into those of another.

    >>> from planner.size import Interval
    >>> interval_words(Interval(low_percent=80.02, high_percent=None, low_cause=None, high_cause=None))
    '80.1 % or more'
    """
    low, high = (None if end is None else end * of_factor for end in (interval.low_percent, interval.high_percent))
    if low is None:
        return "any size" if high is None else f"up to {percent_or_less(high)} %"
    if high is None:
        return f"{percent_or_more(low)} % or more"
    least, most = percent_or_more(low), percent_or_less(high)
    if float(least) > float(most):  # too narrow for a tenth
        return f"{low:.4g} %" if low == high else f"{low:.3f} to {high:.3f} %"
    return f"{least} to {most} %"


def reach_words(reach: Reach, of_factor: float = 1.0) -> str:
    """Return all intervals of a reach; where only answers are missing, that, and what they would give."""
    told = ", ".join(interval_words(interval, of_factor) for interval in reach.intervals)
    if told or not reach.until:
        return told or "no size"
    later = ", ".join(interval_words(interval, of_factor) for interval in reach.if_answered)
    return f"unknown until answered; then {later} at most"
