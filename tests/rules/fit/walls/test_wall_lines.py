"""Walls and lines: between one line and two there is a gap; what a line cannot lay is told. Notes, never worse."""

from __future__ import annotations

import numpy as np
import pytest

from planner.finding import Verdict
from planner.job import read_limits
from planner.rules.fit.walls.wall_lines import WallBetween, WallUnlaid
from planner.sourced import stated
from planner.survey import LayerView


@pytest.mark.parametrize(("thick_mm", "gap"), [(0.52, False), (0.55, True), (0.70, True), (0.74, False)])
def test_between_one_line_and_two_a_wall_has_a_gap(thick_mm: float, gap: bool) -> None:
    """With lines of 0.45 mm the gap lies between 1.2 and 1.6 lines: 0.54 to 0.72 mm."""
    rule = WallBetween(
        part="a", thickness_mm=thick_mm, at_mm=(0.0, 0.0, 0.0), line_width_mm=0.45, limits=read_limits("standard")
    )
    found = rule.at(1.0)

    assert bool(found.caution) is gap
    assert found.verdict is Verdict.GO
    assert bool(rule.at(2.0).caution) is False  # twice as thick it holds two lines and more


def test_what_a_line_cannot_lay_is_asked_of_the_drawn_width() -> None:
    """At 50 % a line of 0.4 mm opens what one of 0.8 opens as drawn: 12 % of the layers, 3.0 mm above the bed."""
    view = LayerView(widths_mm=np.array([0.4, 0.8]), share=np.array([0.01, 0.12]), height_mm=np.array([2.0, 6.0]))
    rule = WallUnlaid(part="a", view=view, line_width_mm=0.4, most_percent=stated(5.0))
    small = rule.at(0.5)

    assert rule.at(1.0).measured == pytest.approx(1.0)
    assert not rule.at(1.0).caution
    assert small.measured == pytest.approx(12.0)
    assert "3.0 mm above the bed" in small.caution
    assert small.verdict is Verdict.GO
