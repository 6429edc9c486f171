"""What is printed in place of hardware keeps the size that its bores are judged for, or is asked about."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.rules.fit.mixed_scales import PrintedGrows
from planner.sourced import stated


def test_a_printed_peg_grows_with_the_device() -> None:
    """5 mm at 80 % are 4 mm, a quarter less than its bores are drilled for; within half a percent they are the same."""
    rule = PrintedGrows(part="peg", feature="axle", diameter_mm=5.0, most_percent=stated(0.5))
    found = rule.at(0.8)

    assert found.verdict is Verdict.HOLD
    assert "comes out 4.00 mm thick" in found.why
    assert "state how peg joins each part in a [[joint]]" in found.remedy
    assert "or give peg scale = 100.0" in found.remedy
    assert rule.at(1.004).verdict is Verdict.GO
    assert rule.turns() == pytest.approx((1 / 1.005, 1.005))
