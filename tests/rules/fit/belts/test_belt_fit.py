"""Belts, worked out by hand on both sides of each limit."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.rules.fit.belts.belt_fit import BeltPitch, BeltTight
from planner.sourced import stated


@pytest.mark.parametrize(
    ("factor", "verdict", "takes_mm"),
    [
        (1.00, Verdict.GO, None),
        (0.94, Verdict.GO, None),
        (0.92, Verdict.GO_WITH_WORK, 6.0),
        (0.60, Verdict.NO_GO, None),
    ],
)
def test_a_groove_takes_the_belt_or_a_narrower_one(factor: float, verdict: Verdict, takes_mm: float | None) -> None:
    """A groove of 10.2 mm for a belt of 9 mm needs 9.5: 93.1 %; one of 6 mm needs 6.5: 63.7 %."""
    rule = BeltTight(
        part="wheel", feature="belt", opening_mm=10.2, strip_mm=9.0, narrower_mm=(6.0,), clearance_mm=stated(0.5)
    )
    found = rule.at(factor)

    assert found.verdict is verdict
    assert (found.work.takes_mm if found.work else None) == takes_mm
    assert rule.turns() == pytest.approx((9.5 / 10.2, 6.5 / 10.2), abs=1e-5)


@pytest.mark.parametrize(("factor", "passes"), [(1.0, True), (1.005, True), (1.006, False), (0.994, False)])
def test_printed_teeth_keep_the_pitch(factor: float, passes: bool) -> None:
    """Half a percent of 2 mm is 0.01 mm: beyond it the job has to say whether the part carries teeth."""
    found = BeltPitch(part="wheel", feature="belt", pitch_mm=2.0, most_percent=stated(0.5)).at(factor)

    assert found.verdict is (Verdict.GO if passes else Verdict.HOLD)
    assert bool(found.question) is not passes
