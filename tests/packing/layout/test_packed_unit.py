"""Spots: where something lies in a frame that is itself turned and moved, against turning the shape twice."""

from __future__ import annotations

import pytest
import shapely

from planner.packing.layout.packed_unit import HERE, Spot, at_spot

SHAPE = shapely.Polygon([(0, 0), (7, 0), (0, 3)])


@pytest.mark.parametrize("turn_deg", [0.0, 90.0, 37.5, 300.0])
def test_a_spot_after_another_is_both_in_turn(turn_deg: float) -> None:
    """Laying a shape at the inner spot and then at the outer one is laying it at their sum."""
    inner, outer = Spot(turn_deg=25.0, shift_mm=(4.0, -2.0)), Spot(turn_deg=turn_deg, shift_mm=(10.0, 5.0))
    twice, once = at_spot(at_spot(SHAPE, inner), outer), at_spot(SHAPE, outer.after(inner))

    assert once.symmetric_difference(twice).area < 1e-9
    assert at_spot(SHAPE, HERE).equals(SHAPE)
