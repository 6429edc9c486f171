"""A curve is what was asked at its knots, straight between them, and names where it passes a level."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.mechanism.judging.curve_over_scale import Curve

VALUES = st.lists(st.floats(-50.0, 50.0), min_size=4, max_size=4)
SCALES = (0.5, 1.0, 1.7, 2.4)


@given(values=VALUES)
def test_a_curve_passes_through_its_knots(values: list[float]) -> None:
    """At a knot it answers what was asked there."""
    curve = Curve(scales=SCALES, values=tuple(values))
    for s, value in zip(SCALES, values, strict=True):
        assert curve.at(s) == pytest.approx(value, abs=1e-9)


@given(values=VALUES, level=st.floats(-20.0, 20.0))
def test_between_two_crossings_a_curve_stays_on_one_side(values: list[float], level: float) -> None:
    """So a verdict that compares it with the level turns at its crossings alone."""
    curve = Curve(scales=SCALES, values=tuple(values))
    ends = [0.05, *(s for s in curve.crossings(level) if s > 0.05), 9.0]
    for left, right in pairwise(ends):
        sides = {curve.at(left + (right - left) * k / 7) > level for k in range(1, 7)}
        near = all(abs(curve.at(left + (right - left) * k / 7) - level) < 1e-6 for k in range(1, 7))
        assert len(sides) == 1 or near


def test_a_level_curve_never_crosses() -> None:
    """What is the same at all sizes turns nowhere."""
    assert Curve(scales=(1.0, 2.0), values=(3.0, 3.0)).crossings(3.0) == ()
