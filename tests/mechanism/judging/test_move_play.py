"""Wobble is a note until somebody states a limit."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.mechanism.judging.curve_over_scale import Curve
from planner.mechanism.judging.move_play import MovePlay


def _rule(most: float | None) -> MovePlay:
    worst, usual = (
        Curve(scales=(0.5, 2.0), values=(2.0, 3.5)),
        Curve(scales=(0.5, 2.0), values=(1.0, 2.0)),
    )
    return MovePlay(part="jaw", feature="the tip", worst_mm=worst, usual_mm=usual, most_mm=most)


def test_without_a_limit_it_is_told() -> None:
    """2.5 mm at 100 %, by the line between 2.0 and 3.5."""
    found = _rule(None).at(1.0)
    assert found.verdict is Verdict.GO
    assert "2.5 mm at worst" in found.why


def test_a_stated_limit_judges() -> None:
    """3.0 mm are reached at 150 %."""
    rule = _rule(3.0)
    assert rule.turns() == pytest.approx((1.5,))
    assert rule.at(1.4).verdict is Verdict.GO
    assert rule.at(1.6).verdict is Verdict.NO_GO
