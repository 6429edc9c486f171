"""A peg that is sanded is listed as work where anything comes off, and called so where it is much."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.job import HandWork
from planner.rules.fit.bores.outside_done import OutsideDone
from planner.sourced import stated


@pytest.mark.parametrize(
    ("percent", "verdict", "told"),
    [
        (95.0, Verdict.GO, "changes nothing"),
        (102.0, Verdict.GO_WITH_WORK, ""),
        (120.0, Verdict.GO_WITH_WORK, "That is 1.60 mm off"),
    ],
)
def test_what_comes_off_is_listed(percent: float, verdict: Verdict, told: str) -> None:
    """A peg of 8 mm, sanded to 8 mm: at 102 % 0.16 mm come off, at 120 % 1.6 mm, which is more than sandpaper takes."""
    work = HandWork(part="a", kind="sand", to_mm=8.0, pegs=("p1",))
    rule = OutsideDone(part="a", feature="p1", drawn_mm=8.0, at_mm=(0.0, 0.0, 0.0), work=work, most_mm=stated(0.5))
    found = rule.at(percent / 100.0)

    assert found.verdict is verdict
    assert told in found.caution
    assert bool(found.work) is (verdict is Verdict.GO_WITH_WORK)
    assert rule.turns() == pytest.approx((1.0,))
