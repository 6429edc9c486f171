"""Changes of level and of failure rate, against planted ones and against chance."""

from __future__ import annotations

import numpy as np
import pytest

from planner.calibrate.pooling.drift import level_drifts, rate_drifts

NONE = np.zeros(0)


def test_a_planted_change_is_found_where_it_is() -> None:
    """A printer whose bores are 0.06 mm smaller from its fifth coupon on, among two that stay as they are."""
    rng = np.random.default_rng(31)
    sound = [0.2 + 0.012 * rng.standard_normal(8) for _ in range(2)]
    moved = np.concatenate([sound[0][:4], sound[1][:5] + 0.06])
    (drift,) = level_drifts([*sound, moved], 0.012)

    assert (drift.series, drift.first, drift.before[1], drift.after[1]) == (2, 4, 4, 5)
    low, middle, high = drift.change
    assert low < 0.06 < high
    assert middle == pytest.approx(0.06, abs=0.015)


def test_sound_workshops_are_told_no_drift() -> None:
    """Of 400 workshops with three printers of nine values at most 5 % and three standard errors are told one."""
    rng = np.random.default_rng(32)
    told_n = sum(bool(level_drifts(list(rng.standard_normal((3, 9))), 0.0)) for _ in range(400))

    assert told_n <= 400 * 0.05 + 3 * np.sqrt(400 * 0.05 * 0.95)


def test_too_few_values_tell_nothing() -> None:
    """Three values cannot show two on each side; none at all neither."""
    assert level_drifts([np.array([0.1, 0.1, 0.9]), NONE], 0.01) == ()


def test_failures_that_become_more_are_told_with_their_ratio() -> None:
    """5 in 200 h, then 20 in 100 h: eight times as many; the exact interval of the share is 0.58 to 0.91 by tables.

    Clopper and Pearson's 90 % ends for 20 of 25 are 0.6257 and 0.9180 (Beta quantiles by scipy.stats, apart).
    """
    from scipy import stats

    hours = np.ones(300)
    failed = np.zeros(300)
    failed[:200:40] = 1
    failed[200::5] = 1
    ((drift),) = rate_drifts([(hours, failed, (100, 200, 250))])
    low, middle, high = drift.change
    ends = stats.binomtest(20, 25).proportion_ci(0.9)

    assert (drift.first, drift.before, drift.after) == (200, (0.025, 5), (0.2, 20))
    assert middle == pytest.approx(8.0)
    assert (low, high) == pytest.approx([2.0 * p / (1.0 - p) for p in ends])


def test_even_failures_are_no_drift() -> None:
    """Of 300 printers whose rate stays the same at most 5 % and three standard errors are told one."""
    rng = np.random.default_rng(33)
    hours = np.full(80, 3.0)
    series = [(hours, (rng.random(80) < 0.1).astype(float), (20, 40, 60)) for _ in range(300)]
    told_n = sum(bool(rate_drifts([one])) for one in series)

    assert told_n <= 300 * 0.05 + 3 * np.sqrt(300 * 0.05 * 0.95)
    assert rate_drifts([(hours, np.zeros(80), (40,))]) == ()
