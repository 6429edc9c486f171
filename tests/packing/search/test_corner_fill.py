"""Beds filled unit by unit: all that fits, bundles whole or not at all, and what is left said."""

from __future__ import annotations

from itertools import combinations

import pytest
import shapely

from planner.packing.layout.packed_unit import HERE, Spot, Unit, at_spot
from planner.packing.layout.sharing_rules import NO_RULES, Rules
from planner.packing.search.bed_filling import FRONT
from planner.packing.search.corner_fill import COARSE_N, Filler

GROUND = shapely.box(0, 0, 100, 100)


def _unit(part: str, copy: int, side_mm: float, bundle: int | None = None) -> Unit:
    """Return a square."""
    square = shapely.box(0, 0, side_mm, side_mm)
    return Unit(copies=(((part, copy), HERE),), shape=square, kind=part, order=0, bundle=bundle)


def _filler(units: list[Unit], rules: Rules = NO_RULES) -> Filler:
    """Return a filler of a bed of 100 x 100 mm with 4 mm of spacing."""
    return Filler(units, GROUND, 4.0, rules)


def test_four_squares_fill_a_bed_and_a_fifth_begins_the_next() -> None:
    """Two of 45 mm and 4 mm between are 94 of 100 mm: four a bed, each once, apart, on the bed."""
    units = [_unit("a", k, 45.0) for k in range(5)]
    plates, left = _filler(units).beds(range(5), turns_n=COARSE_N, score=FRONT)

    assert [sorted(plate) for plate in plates] == [[0, 1, 2, 3], [4]]
    assert left == []
    shapes = [at_spot(units[k].shape, spot) for k, spot in plates[0].items()]
    assert all(GROUND.buffer(1e-6).covers(shape) for shape in shapes)
    assert all(one.distance(other) >= 4.0 - 1e-6 for one, other in combinations(shapes, 2))


def test_a_bundle_lies_whole_or_not_at_all() -> None:
    """Beside a square of 60 mm one of 36 mm fits, but not with its twin of 50: neither stays, and its place is free."""
    units = [_unit("big", 1, 60.0), _unit("small", 1, 36.0, 0), _unit("twin", 1, 50.0, 0), _unit("free", 1, 36.0)]
    filler = _filler(units)
    floor = filler.empty_floor()
    layout = filler.filled(floor, {}, range(4))

    assert sorted(layout) == [0, 3]
    assert len(floor.laid) == 2


def test_what_fits_no_bed_is_returned_and_a_known_lone_place_is_taken() -> None:
    """A square of 101 mm is left over; one that fills the bed to a hair is laid where it is known to lie alone."""
    units = [_unit("over", 1, 101.0)]
    assert _filler(units).beds([0], turns_n=COARSE_N, score=FRONT) == ([], [0])

    filler = _filler(units)
    filler.alone["over"] = HERE
    assert filler.beds([0], turns_n=COARSE_N, score=FRONT) == ([{0: HERE}], [])


def test_units_that_may_not_share_a_bed_do_not() -> None:
    """Two small squares of an ``apart`` set take two beds."""
    units = [_unit("a", 1, 10.0), _unit("b", 1, 10.0)]
    plates, _ = _filler(units, Rules(apart=(frozenset(["a", "b"]),))).beds([0, 1], turns_n=1, score=FRONT)

    assert [list(plate) for plate in plates] == [[0], [1]]


def test_a_layout_is_taken_over_without_what_lies_too_close() -> None:
    """Of two squares 3 mm apart the second is taken up; the third, 4 mm from the first, stays where it was."""
    units = [_unit("a", k, 20.0) for k in range(3)]
    spots = [Spot(turn_deg=0.0, shift_mm=(x, y)) for x, y in ((0.0, 0.0), (23.0, 0.0), (0.0, 24.0))]
    floor, held = _filler(units).floor_of(dict(enumerate(spots)))

    assert held == {0: spots[0], 2: spots[2]}
    assert len(floor.laid) == 2


def test_the_first_turn_lays_the_least_box_along_the_bed() -> None:
    """A bar of 50 x 10 mm drawn at 30 degrees: its first turn gives bounds of 50 x 10 mm."""
    bar = shapely.affinity.rotate(shapely.box(0, 0, 50, 10), 30.0, origin=(0, 0))
    unit = Unit(copies=((("bar", 1), HERE),), shape=bar, kind="bar", order=0)
    x0, y0, x1, y1 = at_spot(bar, Spot(turn_deg=_filler([unit]).turns_of(unit)[0], shift_mm=(0.0, 0.0))).bounds

    assert (x1 - x0, y1 - y0) == pytest.approx((50.0, 10.0))
