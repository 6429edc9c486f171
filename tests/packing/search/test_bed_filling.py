"""One bed while it fills: what it allows is exact, what its raster marks is known to a quarter of a cell."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from planner.packing.search.bed_filling import FRONT, LEFT, Floor, Score, Shapes, cell_mm, touched

GROUND = shapely.box(5, 5, 105, 85)
BAR = shapely.box(0, 0, 30, 20)


def _floor(apart_mm: float = 4.0) -> Floor:
    """Return an empty bed."""
    return Floor(GROUND, apart_mm, Shapes(0.5))


@pytest.mark.parametrize(("score", "second"), [(FRONT, (5.0, 29.0)), (LEFT, (39.0, 5.0))])
def test_shapes_slide_home_into_the_corner_and_to_the_spacing(score: Score, second: tuple[float, float]) -> None:
    """By hand: the first bar lies at (5, 5), the next 4 mm behind or beside it, each to a hundredth."""
    floor = _floor()
    spots = [floor.place("bar", BAR, (0.0,), score) for _ in range(2)]
    shifts = [spot.shift_mm for spot in spots if spot is not None]

    assert shifts[0] == pytest.approx((5.0, 5.0), abs=0.01)
    assert shifts[1] == pytest.approx(second, abs=0.01)
    assert floor.laid[0].distance(floor.laid[1]) >= 4.0 - 1e-6


def test_what_is_allowed_is_exact() -> None:
    """A bar a thousandth too near, or a thousandth over the edge, is refused; at the spacing and on the edge it is not."""
    floor = _floor()
    floor.lay(shapely.box(5, 5, 35, 25))

    assert floor.allows(shapely.box(39.0, 5, 69, 25))
    assert not floor.allows(shapely.box(38.999, 5, 68.999, 25))
    assert floor.allows(shapely.box(75, 65, 105, 85))
    assert not floor.allows(shapely.box(75.001, 65, 105.001, 85))


def test_the_turn_that_fits_is_found_and_none_is_said() -> None:
    """A bar of 90 x 20 mm lies along the bed of 100 x 80 alone; one of 110 in no right-angled turn."""
    long = _floor().place("long", shapely.box(0, 0, 90, 20), (90.0, 0.0), FRONT)

    assert long is not None
    assert long.turn_deg == 0.0
    assert _floor().place("over", shapely.box(0, 0, 110, 2), (0.0, 90.0), FRONT) is None


def test_a_bed_that_is_restored_is_as_it_was() -> None:
    """What was laid after a snapshot is gone: the next shape takes the same place again, and the area is free again."""
    floor = _floor()
    floor.place("bar", BAR, (0.0,), FRONT)
    was = floor.snapshot()
    one = floor.place("bar", BAR, (0.0,), FRONT)
    floor.restore(was)

    assert floor.free_mm2 == 100 * 80 - 30 * 20
    assert len(floor.laid) == 1
    assert floor.place("bar", BAR, (0.0,), FRONT) == one


def test_marked_cells_are_those_whose_middles_lie_within_half_a_cell() -> None:
    """For twenty random triangles, against shapely's distances: all within half a cell, none beyond a whole one."""
    rng = np.random.default_rng(7)
    middles = shapely.points(*np.meshgrid(np.arange(20) / 2 + 0.25, np.arange(20) / 2 + 0.25, indexing="ij"))
    for _ in range(20):
        shape = shapely.Polygon(rng.uniform(1, 9, (3, 2)))
        away_mm, marked = shapely.distance(middles, shape), touched(shape, (0.0, 0.0), (20, 20), 0.5)

        assert marked[away_mm < 0.25 - 1e-9].all()
        assert not marked[away_mm > 0.5].any()


def test_cells_grow_with_the_bed_beyond_240_mm() -> None:
    """Half a millimetre up to 240 mm, one millimetre at 480."""
    assert [cell_mm(shapely.box(0, 0, side, 100)) for side in (180, 240, 480)] == [0.5, 0.5, 1.0]


def test_shapes_are_turned_as_spots_turn_them() -> None:
    """A quarter turn of the bar takes 40 x 60 cells, from the corner (-20, 0)."""
    _, low, n, turned = Shapes(0.5).at("bar", BAR, 90.0)

    assert low == pytest.approx((-20.0, 0.0))
    assert n == (40, 60)
    assert turned.symmetric_difference(shapely.box(-20, 0, 0, 30)).area < 1e-6
