"""Strips: the stated width where it goes in, the next narrower of the stock where it does not, nothing below that."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.rules.fit.strip_tight import StripTight
from planner.sourced import stated


@pytest.mark.parametrize(
    ("factor", "taken_mm", "verdict"),
    [
        (1.0, 25.0, Verdict.GO),
        (0.99, 20.0, Verdict.GO_WITH_WORK),
        (0.80, 15.0, Verdict.GO_WITH_WORK),
        (0.61, None, Verdict.NO_GO),
    ],
)
def test_the_widest_strip_that_goes_in_is_taken(factor: float, taken_mm: float | None, verdict: Verdict) -> None:
    """26 mm with 1 mm of clearance: 25 mm at 100 %, 20 mm down to 80.8 %, 15 mm down to 61.5 % (by hand)."""
    rule = StripTight(
        part="a", feature="slot", opening_mm=26.0, strip_mm=25.0, narrower_mm=(20.0, 15.0), clearance_mm=stated(1.0)
    )

    assert rule.taken_mm(factor) == taken_mm
    assert rule.verdict(factor) is verdict
    assert rule.turns() == pytest.approx((1.0, 21.0 / 26.0, 16.0 / 26.0), abs=1e-5)
