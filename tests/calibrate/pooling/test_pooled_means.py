"""Partly pooled means: their intervals against printers whose true means are known, and closed forms."""

from __future__ import annotations

import numpy as np
import pytest

from planner.calibrate.pooling.pooled_means import Usual, pooled_means

USUAL = Usual(0.0, 0.3, 0.2, 0.1)


def _held(seed: int, printers_n: int, chapters_n: int, between: float, least_n: int) -> float:
    """Return how often 90 % intervals hold the true mean of simulated printers with few prints each."""
    rng = np.random.default_rng(seed)
    held = []
    for _ in range(chapters_n):
        true = rng.normal(0.06, between, printers_n)
        told = [mean + 0.08 * rng.standard_normal(rng.integers(least_n, least_n + 5)) for mean in true]
        pooled = pooled_means(told, [np.zeros(len(own)) for own in told], USUAL)
        held.append((pooled.low[:-1] <= true) & (true <= pooled.high[:-1]))
    return float(np.mean(held))


@pytest.mark.parametrize("least_n", [0, 3])
@pytest.mark.parametrize(("printers_n", "chapters_n"), [(2000, 1), (20, 100)])
def test_ninety_percent_intervals_hold_in_88_to_92(printers_n: int, chapters_n: int, least_n: int) -> None:
    """2,000 printers with none to seven prints each, in one ledger or in a hundred: 88 to 92 of 100 hold (seed 20)."""
    assert 0.88 <= _held(20, printers_n, chapters_n, 0.1, least_n) <= 0.92


def test_small_chapters_are_not_told_too_narrow_an_interval() -> None:
    """200 chapters of five printers: 88 to 92 where printers differ, and never under 88 where they hardly do."""
    assert 0.88 <= _held(21, 5, 200, 0.1, 2) <= 0.92
    assert _held(22, 5, 100, 0.02, 2) >= 0.88


def test_one_group_alone_has_the_textbook_interval() -> None:
    """Twelve values and nothing usual to speak of: Student's 90 % interval of the mean, within a twentieth."""
    from scipy import stats

    told = np.random.default_rng(23).normal(0.1, 0.05, 12)
    pooled = pooled_means([told], [np.zeros(12)], Usual(0.0, 50.0, 20.0, 0.05))
    half = stats.t.ppf(0.95, 11) * told.std(ddof=1) / np.sqrt(12)

    assert pooled.value[0] == pytest.approx(told.mean(), abs=1e-3)
    assert (pooled.high[0] - pooled.low[0]) / 2 == pytest.approx(half, rel=0.05)


def test_a_new_printer_borrows_and_calipers_stay() -> None:
    """It stands at the mean of the others; a printer with one value moves towards them; noise keeps intervals wide."""
    told = [np.full(6, 0.2), np.full(6, 0.24), np.array([0.5])]
    exact = pooled_means(told, [np.zeros(len(own)) for own in told], Usual(0.2, 0.1, 0.1, 0.03))
    rough = pooled_means(told, [np.full(len(own), 0.1**2) for own in told], Usual(0.2, 0.1, 0.1, 0.03))

    assert 0.2 < exact.value[-1] < 0.5
    assert exact.value[2] < 0.5
    assert np.all((rough.high - rough.low)[:2] > 2 * 1.64 * 0.1 / np.sqrt(13))
    assert np.all((exact.high - exact.low)[:2] < 0.01)
    assert np.all(exact.next_high > exact.value)


def test_nothing_told_is_what_is_usual() -> None:
    """A new group without any other has the usual mean, and an interval that covers both usual spreads."""
    pooled = pooled_means([], [], USUAL)

    assert pooled.value == pytest.approx([0.0], abs=1e-9)
    assert pooled.high[0] == pytest.approx(1.645 * np.hypot(0.3, 0.2), rel=0.05)
