"""Sizes that work, in words."""

from __future__ import annotations

from planner.size import Interval, Reach


def interval_words(interval: Interval, of_factor: float = 1.0) -> str:
    """Return one interval; ``of_factor`` turns percents of one size into those of another.

    >>> from planner.size import Interval
    >>> interval_words(Interval(low_percent=80.0, high_percent=None, low_cause=None, high_cause=None))
    '80.0 % or more'
    """
    low, high = (None if end is None else end * of_factor for end in (interval.low_percent, interval.high_percent))
    if low is None:
        return "any size" if high is None else f"up to {high:.1f} %"
    return f"{low:.1f} % or more" if high is None else f"{low:.1f} to {high:.1f} %"


def reach_words(reach: Reach, of_factor: float = 1.0) -> str:
    """Return all intervals of a reach; where only answers are missing, that, and what they would give."""
    told = ", ".join(interval_words(interval, of_factor) for interval in reach.intervals)
    if told or not reach.until:
        return told or "no size"
    later = ", ".join(interval_words(interval, of_factor) for interval in reach.if_answered)
    return f"unknown until answered; then {later} at most"
