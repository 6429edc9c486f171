"""A placement puts the middle of the turned outline's box where it says."""

from __future__ import annotations

import pytest

from planner.packing.layout.item import outline_box_mm, placed_outline
from planner.packing.layout.plate import Placement

RINGS = (((0.0, 0.0), (30.0, 0.0), (30.0, 10.0), (0.0, 10.0)), ((5.0, 2.0), (9.0, 2.0), (9.0, 6.0), (5.0, 6.0)))


@pytest.mark.parametrize(("turn_deg", "wide", "deep"), [(0.0, 30.0, 10.0), (90.0, 10.0, 30.0), (180.0, 30.0, 10.0)])
def test_the_turned_box_is_centred_on_the_placement(turn_deg: float, wide: float, deep: float) -> None:
    """30 x 10 mm at (100, 50): the box by hand; its hole goes with it, so that the area stays 300 - 16 mm2."""
    spot = Placement(part="a", copy=1, x_mm=100.0, y_mm=50.0, turn_deg=turn_deg)

    assert outline_box_mm(RINGS, spot) == pytest.approx((100 - wide / 2, 50 - deep / 2, 100 + wide / 2, 50 + deep / 2))
    assert placed_outline(RINGS, spot).area == pytest.approx(284.0)
