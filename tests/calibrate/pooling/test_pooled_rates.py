"""Partly pooled failure rates: their intervals against printers whose true rates are known, and closed forms."""

from __future__ import annotations

import numpy as np
import pytest

from planner.calibrate.pooling.pooled_rates import pooled_rates
from planner.sourced import Sourced

USUAL = Sourced(value=0.01, low=0.003, high=0.05, kind="memory", source="")


@pytest.mark.parametrize(("rate", "scatter", "most_h"), [(0.01, 0.5, 400), (0.02, 0.7, 60), (0.03, 1.0, 60)])
def test_ninety_percent_intervals_hold_in_88_to_92(rate: float, scatter: float, most_h: float) -> None:
    """2,000 printers of few hours, some of none, in one ledger (seed 24): 88 to 92 of 100 rates lie inside."""
    rng = np.random.default_rng(24)
    true = rng.gamma(scatter**-2, rate * scatter**2, 2000)
    hours = rng.uniform(0, most_h, 2000)
    pooled = pooled_rates(rng.poisson(true * hours).astype(float), hours, USUAL)

    assert 0.88 <= np.mean((pooled.low[:-1] <= true) & (true <= pooled.high[:-1])) <= 0.92


def test_small_chapters_hold_too() -> None:
    """100 chapters of twenty printers, whose common rate and scatter are drawn from what is usual: 88 to 92 (seed 25)."""
    rng, held = np.random.default_rng(25), []
    for _ in range(100):
        rate = 0.01 * np.exp(0.855 * rng.standard_normal())
        scatter = max(0.05, abs(rng.standard_normal()))
        true = rng.gamma(scatter**-2, rate * scatter**2, 20)
        hours = rng.uniform(0, 300, 20)
        pooled = pooled_rates(rng.poisson(true * hours).astype(float), hours, USUAL)
        held.append((pooled.low[:-1] <= true) & (true <= pooled.high[:-1]))

    assert 0.88 <= np.mean(held) <= 0.92


def test_much_history_is_the_count_over_the_hours() -> None:
    """900 failures in 30,000 h are 0.03 an hour, with the Poisson interval of 900 (Garwood 1936, by chi-square)."""
    from scipy import stats

    pooled = pooled_rates(np.array([900.0]), np.array([30000.0]), USUAL)
    low, high = stats.chi2.ppf(0.05, 1800) / 60000, stats.chi2.ppf(0.95, 1802) / 60000

    assert pooled.value[0] == pytest.approx(0.03, rel=0.01)
    assert [pooled.low[0], pooled.high[0]] == pytest.approx([low, high], rel=0.01)


def test_a_new_printer_borrows_and_one_without_failures_is_not_at_zero() -> None:
    """Three printers fail once in 20 h: a new one is thought likewise, and 10 h without a failure prove little."""
    pooled = pooled_rates(np.array([10.0, 12.0, 9.0, 0.0]), np.array([200.0, 200.0, 200.0, 10.0]), USUAL)

    assert 0.02 < pooled.value[4] < 0.08
    assert 0.02 < pooled.value[3] < pooled.value[4]
    assert pooled.low[3] < pooled.value[0] < pooled.high[3]
