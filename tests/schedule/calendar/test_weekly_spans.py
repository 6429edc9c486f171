"""Weekly windows as spans of minutes: by hand for one week, and by counting minute by minute."""

from __future__ import annotations

from datetime import datetime
from itertools import pairwise

import numpy as np

from planner.job import Attended
from planner.schedule.calendar.weekly_spans import (
    HORIZON_MIN,
    clipped,
    first_from,
    joined,
    spans_of,
    starts_clear,
    starts_within,
    without,
    worked,
)

MONDAY = datetime(2026, 11, 30)
DAY = 24 * 60
EVENINGS = (Attended(days=(0, 1), from_min=18 * 60, to_min=22 * 60),)


def _minutes(spans: tuple[tuple[int, int], ...]) -> set[int]:
    """Return every minute that lies in a span."""
    return {minute for a, b in spans for minute in range(a, b)}


def _random(seed: int) -> tuple[tuple[int, int], ...]:
    """Return spans that do not touch, within 200 minutes."""
    ends = sorted(np.random.default_rng(seed).choice(200, size=10, replace=False).tolist())
    return tuple(zip(ends[::2], ends[1::2], strict=True))


def test_a_week_of_evenings_by_hand() -> None:
    """From Monday midnight: 18 to 22 on Monday and on Tuesday, then a week later again, for a year and no longer."""
    spans = spans_of(EVENINGS, MONDAY)

    assert spans[:3] == ((18 * 60, 22 * 60), (DAY + 18 * 60, DAY + 22 * 60), (7 * DAY + 18 * 60, 7 * DAY + 22 * 60))
    assert all(before[1] < after[0] for before, after in pairwise(spans))
    assert spans[-1][1] <= HORIZON_MIN


def test_a_window_that_is_open_already_begins_now_and_touching_ones_are_one() -> None:
    """At 20:00 two hours of the evening are left; two windows that meet at midnight are one span."""
    late = MONDAY.replace(hour=20)
    night = (Attended(days=(0,), from_min=22 * 60, to_min=DAY), Attended(days=(1,), from_min=0, to_min=2 * 60))

    assert spans_of(EVENINGS, late)[0] == (0, 2 * 60)
    assert spans_of(night, MONDAY)[0] == (22 * 60, DAY + 2 * 60)


def test_sums_on_spans_equal_counting_minutes() -> None:
    """Joining, clipping and taking away say of every minute what a set of minutes says."""
    for seed in range(20):
        one, other = _random(seed), _random(seed + 100)

        assert _minutes(joined([*one, *other])) == _minutes(one) | _minutes(other)
        assert _minutes(without(one, other)) == _minutes(one) - _minutes(other)
        assert _minutes(clipped(one, 40, 90)) == _minutes(one) & set(range(40, 90))


def test_a_start_leaves_room_for_its_run() -> None:
    """A minute is a start if and only if a run of that length lies in one span, clear of what is taken."""
    for seed in range(20):
        spans, taken, length = _random(seed), _random(seed + 200), 7
        free, blocked = _minutes(spans), _minutes(taken)
        starts = starts_clear(starts_within(spans, length), taken, length)
        meant = {m for m in range(200) if set(range(m, m + length)) <= free - blocked}

        assert {m for a, b in starts for m in range(a, b + 1)} == meant
        for minute in range(200):
            assert first_from(starts, minute) == min((m for m in meant if m >= minute), default=None)


def test_work_rests_outside_the_spans() -> None:
    """Work of a length ends when as many minutes of the spans have gone by; what has no room left never ends."""
    for seed in range(20):
        spans = _random(seed)
        minutes = sorted(m for m in _minutes(spans) if m >= 30)
        done = worked(spans, 30, 15)

        assert done == (minutes[14] + 1 if len(minutes) >= 15 else None)


def test_what_lies_between_two_minutes_is_cut_at_both() -> None:
    """Before, across the beginning, inside, across the end, after."""
    spans = [(0, 3), (4, 9), (10, 12), (15, 30), (40, 50)]

    assert clipped(spans, 5, 20) == ((5, 9), (10, 12), (15, 20))
