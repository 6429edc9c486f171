"""Units of which no bed takes two: by closed forms of two circles in a square and in a circle, and never too many."""

from __future__ import annotations

import math

import pytest
import shapely

from planner.job import usable_ground
from planner.packing import NO_RULES, pack
from planner.packing.layout.group_packer import GroupPacker
from planner.packing.layout.outline import filled, polygon
from planner.packing.search.effort import Effort
from planner.packing.search.one_a_bed import one_a_bed_n
from tests.packing.part_sets import BED, item_of
from tests.packing.problems import problem

SQUARE, ROUND = shapely.box(0, 0, 100, 100), shapely.Point(50, 50).buffer(50, quad_segs=180)


@pytest.mark.parametrize(
    ("ground", "largest_mm"),
    [(SQUARE, 100.0 / (2.0 + math.sqrt(2.0))), (ROUND, 25.0)],
    ids=["two in a square: side / (2 + root 2)", "two in a circle: half its radius"],
)
def test_two_circles_share_a_bed_up_to_the_closed_form(ground: shapely.Polygon, largest_mm: float) -> None:
    """Two equal circles in a square and in a circle (the latter: Graham 1968, Amer. Math. Monthly 75, 192 to 193)."""
    for by, needed in ((0.98, 1), (1.02, 5)):
        discs = [shapely.Point(0, 0).buffer(by * largest_mm, quad_segs=60)] * 5
        assert one_a_bed_n(discs, ground, 0.0) == needed


def test_the_spacing_counts_and_only_the_largest_do() -> None:
    """Squares of 48 beside each other leave 4 mm of 100: not for a spacing of 45 even across corners; small ones share."""
    squares, small = [shapely.box(0, 0, 48, 48)] * 3, [shapely.box(0, 0, 10, 10)] * 9

    assert one_a_bed_n([*squares, *small], SQUARE, 4.0) == 1
    assert one_a_bed_n([*small, *squares], SQUARE, 52.0 * math.sqrt(2.0) - 48.0 + 0.2) == 3
    assert one_a_bed_n([], SQUARE, 4.0) == 1


@pytest.mark.parametrize("seed", range(12))
def test_no_bed_is_denied_that_holds_its_units(seed: int) -> None:
    """Round beds, L-shaped ones, with zones and brims: of the units that lie on one bed none is said to want its own."""
    case = problem(seed)
    shapes = {item.part: filled(filled(polygon(item.rings)).buffer(item.group.brim_mm)) for item in case.items}

    for plate in pack(case.items, bed=case.bed, spacing_mm=case.spacing_mm, seed=1, budget_s=0.0).plates:
        nested = [item.part for item in case.items if item.in_opening]
        laid = [shapes[p.part] for p in plate.placements if p.part not in nested]
        assert one_a_bed_n(laid, usable_ground(case.bed), case.spacing_mm) == 1


def test_squares_that_plainly_cannot_share_a_bed_are_not_searched() -> None:
    """Three of 150 mm on a bed of 210: two hold circles of 75 whose middles are 85 mm apart at most. No effort is spent."""
    effort = Effort(60.0)
    items = [item_of("large", shapely.box(0, 0, 150, 150), 3), item_of("small", shapely.box(0, 0, 30, 30), 2)]

    assert len(GroupPacker(items, items[0].group, BED, 4.0, 1, NO_RULES).packed(effort)) == 3
    assert effort.spent_s == 0.0
