"""Calibration: known offsets come back within their stated interval as often as it says; slips are one sentence."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from planner.calibrate import Reading, fitted
from planner.calibrate.coupon import CouponFeature, FeatureKind
from planner.calibrate.fitted_offsets import offset_mm
from tests.calibrate.noisy_readings import FEATURES, noisy_readings


def test_the_stated_interval_holds_as_often_as_it_says() -> None:
    """500 noisy coupons: the true offset lies in the 95 % interval in 92 to 98 % of them (Student's t)."""
    inside = 0
    for seed in range(500):
        found = fitted(noisy_readings(0.14, 0.27, 0.03, seed), "test")
        assert found.upright_mm is not None
        inside += found.upright_mm.low <= 0.14 <= found.upright_mm.high

    assert 0.92 <= inside / 500 <= 0.98


def test_the_interval_is_scipys() -> None:
    """Mean and 95 % interval equal scipy.stats.t.interval of the same differences."""
    readings = noisy_readings(0.2, 0.35, 0.02, 7)
    under = [r.feature.inside_mm - (r.measured_mm or 0.0) for r in readings if r.feature.kind == "lying"]
    low, high = stats.t.interval(0.95, len(under) - 1, loc=np.mean(under), scale=stats.sem(under))
    found = offset_mm(readings, "lying", "test", [])

    assert found is not None
    assert found.value == pytest.approx(np.mean(under))
    assert found.low == pytest.approx(low)
    assert found.high == pytest.approx(high)


def test_an_offset_that_grows_with_the_diameter_is_told() -> None:
    """A clear slope is named and the range spans both ends."""
    readings = [
        Reading(feature=one, measured_mm=one.inside_mm - 0.1 - 0.02 * one.drawn_mm, passed=None)
        for one in FEATURES
        if one.kind == "upright"
    ]
    notes: list[str] = []
    found = offset_mm(
        [*readings[:-1], Reading(feature=readings[-1].feature, measured_mm=readings[-1].measured_mm, passed=None)],
        "upright",
        "test",
        notes,
    )

    assert found is not None
    assert found.low <= 0.1 + 0.02 * 3 + 1e-6
    assert found.high >= 0.1 + 0.02 * 8 - 1e-6
    assert not notes or "changes by" in notes[0]


def test_ladders_give_the_least_that_came_out_and_the_largest_that_did_not() -> None:
    """Walls from 0.6 mm: 0.68 is the least drawn one that is whole, 0.45 the largest that is not; gaps from 0.2."""
    found = fitted(noisy_readings(0.2, 0.35, 0.01, 1), "test")

    assert found.least_wall_mm is not None
    assert found.least_gap_mm is not None
    assert (found.least_wall_mm.low, found.least_wall_mm.value) == (0.45, 0.68)
    assert (found.least_gap_mm.low, found.least_gap_mm.value) == (0.15, 0.2)


def test_the_longest_bridge_and_the_steepest_lean_are_those_up_to_which_all_came_out() -> None:
    """6 mm came out, 8 did not, 10 did again: 6, and at most 8. A reach of 4 mm over 4 of height is 45 degrees."""

    def one(kind: FeatureKind, size: float, passed: bool) -> Reading:
        feature = CouponFeature(name=f"{kind} {size:g}", kind=kind, drawn_mm=size, inside_mm=size)
        return Reading(feature=feature, measured_mm=None, passed=passed)

    spans = [one("bridge", 4, True), one("bridge", 6, True), one("bridge", 8, False), one("bridge", 10, True)]
    found = fitted([*spans, one("overhang", 4.0, True)], "test")

    assert found.bridge_mm is not None
    assert (found.bridge_mm.value, found.bridge_mm.high) == (6.0, 8.0)
    assert found.lean_deg is not None
    assert found.lean_deg.value == pytest.approx(45.0)
