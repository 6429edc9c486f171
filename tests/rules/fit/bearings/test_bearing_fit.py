"""A bearing's pocket and its shaft: numbers on both sides of each limit, worked out by hand."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.rules.fit.bearings.bearing_fit import BearingDeep, shaft_finding
from planner.sourced import Sourced


def _limit(value: float) -> Sourced:
    return Sourced(value=value, low=value, high=value, kind="common-practice", source="test")


@pytest.mark.parametrize(
    ("percent", "verdict", "stands_out"),
    [(120.0, Verdict.GO, False), (100.0, Verdict.GO, True), (60.0, Verdict.GO, True), (58.0, Verdict.HOLD, False)],
)
def test_a_pocket_holds_a_bearing_over_half_its_width(percent: float, verdict: Verdict, *, stands_out: bool) -> None:
    """A pocket of 6.0 mm and a bearing 7 mm wide (6 to ISO 15): whole at 116.7 %, half at 58.3 %."""
    rule = BearingDeep(
        part="a",
        feature="b1",
        bearing="bearing",
        deep_mm=6.0,
        width_mm=7.0,
        at_mm=(0.0, 0.0, 0.0),
        least_share=_limit(0.5),
    )
    finding = rule.at(percent / 100.0)

    assert (finding.verdict, bool(finding.caution)) == (verdict, stands_out)
    assert [round(100.0 * turn, 1) for turn in rule.turns()] == [58.3, 116.7]


@pytest.mark.parametrize(
    ("shaft_mm", "verdict"),
    [(8.0, Verdict.GO), (7.9, Verdict.GO), (7.85, Verdict.HOLD), (8.1, Verdict.NO_GO)],
)
def test_a_shaft_fills_the_bore_of_its_bearing(shaft_mm: float, verdict: Verdict) -> None:
    """A bearing of 8 mm bore takes 8 mm; a tenth less still runs, more rattles, and 8.1 mm do not go in."""
    finding = shaft_finding(
        part="a",
        feature="b1",
        bearing="bearing",
        bore_mm=8.0,
        shaft="axle",
        shaft_mm=shaft_mm,
        play_mm=_limit(0.1),
    )

    assert finding.verdict is verdict
