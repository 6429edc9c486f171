"""Inner circles lie within their outline and fill it."""

from __future__ import annotations

import pytest
import shapely

from planner.packing.separation.poles import COVERED, POLES_MOST, poles_of
from tests.packing.part_sets import own_set


@pytest.mark.parametrize("seed", range(101, 107))
def test_poles_lie_inside_the_outline(seed: int) -> None:
    """Every circle's middle is at least its radius away from the outline's edge, on the inside (GEOS)."""
    for item in own_set(seed):
        shape = shapely.Polygon(item.rings[0])
        for x, y, radius in poles_of(shape):
            at = shapely.Point(x, y)

            assert shape.contains(at)
            assert at.distance(shape.exterior) >= radius - 1e-6


def test_the_first_pole_is_the_largest_circle_and_the_rest_fill_up() -> None:
    """Closed form: a rectangle's largest circle has half its short side; a bar takes circles until 90 % or eight."""
    bar = shapely.box(0.0, 0.0, 60.0, 20.0)
    poles = poles_of(bar)
    discs = shapely.union_all([shapely.Point(x, y).buffer(r) for x, y, r in poles])

    assert poles[0, 2] == pytest.approx(10.0, rel=0.02)
    assert discs.area >= COVERED * bar.area or len(poles) == POLES_MOST
