"""Windows: a weekly calendar as spans of whole minutes from the plan's start, and sums on spans."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from datetime import datetime, time, timedelta
from functools import lru_cache

from planner.job import Attended
from planner.schedule.calendar.wall_clock import Wall

Span = tuple[int, int]
"""From a minute up to, but not including, another; counted from the plan's start."""
HORIZON_DAYS = 366
"""What finds no time within a year finds none."""
HORIZON_MIN = HORIZON_DAYS * 24 * 60


def spans_of(week: Sequence[Attended], start: datetime, zone: str = "") -> tuple[Span, ...]:
    """Return the spans of weekly windows from a start on, for a year; those that touch, also over midnight, are one.

    They count real minutes: in a ``zone`` whose clocks change, a window of that night is an hour shorter or longer.
    """
    return _spans_of(tuple(week), start, zone)


@lru_cache(maxsize=64)
def _spans_of(week: tuple[Attended, ...], start: datetime, zone: str) -> tuple[Span, ...]:
    """Return the same, remembered: many ways are weighed in the same hours."""
    wall = Wall(start=start, zone=zone)
    first = datetime.combine(start.date() - timedelta(days=1), time())
    spans = []
    for step in range(HORIZON_DAYS + 2):
        midnight = first + timedelta(days=step)
        for window in week:
            if midnight.weekday() in window.days:
                # a second's fraction of the start may not shrink a window: begin late, end early, by under a minute
                low = wall.minutes_to(midnight + timedelta(minutes=window.from_min))
                high = wall.minutes_to(midnight + timedelta(minutes=window.to_min))
                spans.append((math.ceil(low), math.floor(high)))
    return clipped(joined(spans), 0, HORIZON_MIN)


def joined(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Return spans in order, those that touch or overlap as one.

    >>> joined([(5, 9), (0, 3), (3, 4)])
    ((0, 4), (5, 9))
    """
    found: list[Span] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        elif high > low:
            found.append((low, high))
    return tuple(found)


def clipped(spans: Sequence[Span], low: int, high: int) -> tuple[Span, ...]:
    """Return what of the spans lies between two minutes."""
    return tuple((max(a, low), min(b, high)) for a, b in spans if min(b, high) > max(a, low))


def both(spans: Sequence[Span], others: Sequence[Span]) -> tuple[Span, ...]:
    """Return what lies in the spans and in others; both in order.

    >>> both([(0, 10), (20, 30)], [(5, 25)])
    ((5, 10), (20, 25))
    """
    return without(spans, without([(0, HORIZON_MIN * 2)], others))


def without(spans: Sequence[Span], taken: Sequence[Span]) -> tuple[Span, ...]:
    """Return the spans less others; both in order.

    >>> without([(0, 10)], [(2, 3), (8, 20)])
    ((0, 2), (3, 8))
    """
    found, index = [], 0
    for low, high in spans:
        at = low
        while index < len(taken) and taken[index][1] <= low:
            index += 1
        for a, b in taken[index:]:
            if a >= high:
                break
            if a > at:
                found.append((at, a))
            at = max(at, b)
        if at < high:
            found.append((at, high))
    return tuple(found)


def starts_within(spans: Sequence[Span], length: int) -> tuple[Span, ...]:
    """Return the minutes, as spans with both ends meant, at which something of a length can start inside one span."""
    return tuple((a, b - length) for a, b in spans if b - length >= a)


def starts_clear(starts: Sequence[Span], taken: Sequence[Span], length: int) -> tuple[Span, ...]:
    """Return those of the starts, both ends meant, from which a run of a length meets no taken span."""
    half_open = [(a, b + 1) for a, b in starts]
    blocked = joined((a - length + 1, b) for a, b in taken)
    return tuple((a, b - 1) for a, b in without(half_open, blocked))


def first_from(starts: Sequence[Span], minute: int) -> int | None:
    """Return the earliest start at or after a minute among spans with both ends meant."""
    index = bisect_right(starts, (minute, HORIZON_MIN * 2)) - 1
    if index >= 0 and starts[index][1] >= minute:
        return minute
    return starts[index + 1][0] if index + 1 < len(starts) else None


def worked(spans: Sequence[Span], minute: int, length: int) -> int | None:
    """Return when work of a length is done that begins at a minute and rests outside the spans."""
    left = length
    for a, b in spans[max(0, bisect_right(spans, (minute, HORIZON_MIN * 2)) - 1) :]:
        begin = max(a, minute)
        if begin >= b:
            continue
        if left <= b - begin:  # work of no length begins at once, inside a span
            return begin + left
        left -= b - begin
    return None
