"""What is printed in place of hardware keeps the size that its bores are judged for, or is asked about."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.rules.fit.mixed_scales import PrintedGrows
from planner.sourced import stated


def test_a_printed_peg_grows_with_the_device() -> None:
    """5 mm at 80 % are 4 mm, a quarter less than its bores are drilled for; within half a percent they are the same."""
    rule = PrintedGrows(part="peg", feature="axle", diameter_mm=5.0, thick_mm=5.0, most_percent=stated(0.5))
    found = rule.at(0.8)

    assert found.verdict is Verdict.HOLD
    assert "comes out 4.00 mm thick" in found.why
    assert "state how peg joins each part in a [[joint]]" in found.remedy
    assert "or give peg scale = 100.0" in found.remedy
    assert rule.at(1.004).verdict is Verdict.GO
    assert rule.turns() == pytest.approx((1 / 1.005, 1.005))


def test_a_printed_peg_is_as_thick_as_its_mesh_whatever_is_stated() -> None:
    """Stated 5.5 mm and drawn 6: bores judged for 5.5 would pinch it, so it is held, and the right figure is named."""
    found = PrintedGrows(part="peg", feature="axle", diameter_mm=5.5, thick_mm=6.0, most_percent=stated(0.5)).at(1.0)

    assert found.verdict is Verdict.HOLD
    assert "comes out 6.00 mm thick" in found.why
    assert found.remedy.startswith("state diameter_mm = 6,")


def test_a_printed_peg_with_a_scale_of_its_own_is_judged_at_that() -> None:
    """At 120 % of its own, 5 mm come out 6 at every size of the device."""
    rule = PrintedGrows(
        part="peg", feature="axle", diameter_mm=5.0, thick_mm=5.0, most_percent=stated(0.5), own_factor=1.2
    )

    assert rule.turns() == ()
    assert {rule.at(s).verdict for s in (0.8, 1.0, 1.2)} == {Verdict.HOLD}
