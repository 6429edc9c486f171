"""Beds of any shape: margins, zones, what fits alone, and parts in openings."""

from __future__ import annotations

from dataclasses import replace

import pytest
import shapely

from planner.job import Bed, joined, usable_ground
from planner.packing import Item, Placement, Rules, pack, verify, verify_plate
from tests.packing.judge import faults
from tests.packing.part_sets import BED, GROUP, item_of

FRAME = shapely.box(0, 0, 205, 205).difference(shapely.box(25, 25, 180, 180))
SQUARE = shapely.box(0, 0, 40, 40)


def plates_of(*items: Item, bed: Bed = BED, rules: Rules | None = None) -> list[list[str]]:
    """Return the parts on each plate; every plate is proved twice."""
    packing = pack(items, bed=bed, spacing_mm=4.0, seed=1, budget_s=0.0, rules=rules or Rules())
    laid = [item for item in items if item.part not in {part for part, _, _ in packing.unplaced}]
    kept = replace(rules or Rules(), together=()) if packing.broken else rules or Rules()
    assert verify(packing.plates, laid, bed=bed, spacing_mm=4.0, rules=kept) == ()
    assert faults(packing.plates, laid, bed, 4.0) == []
    return [[p.part for p in plate.placements] for plate in packing.plates]


def test_small_parts_lie_in_an_opening_where_that_saves_a_plate() -> None:
    """A frame as large as the bed takes five small plates into its opening: one plate instead of two."""
    small = item_of("small", shapely.box(0, 0, 40, 60), 5, in_opening=True)

    assert len(plates_of(item_of("frame", FRAME), small)) == 1
    assert len(plates_of(item_of("frame", FRAME), replace(small, in_opening=False))) == 2


def test_no_part_lies_in_an_opening_where_it_saves_nothing_or_has_a_brim() -> None:
    """A small frame and a small part share a bed side by side; a brim keeps parts out of openings."""
    frame = item_of("frame", shapely.affinity.scale(FRAME, 0.5, 0.5, origin=(0, 0)))
    packing = pack([frame, item_of("small", SQUARE, in_opening=True)], bed=BED, spacing_mm=4.0, seed=1, budget_s=0.0)
    brim = replace(GROUP, brim_mm=1.0)
    wide = [
        replace(item, group=brim) for item in (item_of("frame", FRAME), item_of("small", SQUARE, 1, in_opening=True))
    ]
    bare = replace(frame, in_opening=False)
    inside = Placement(part="small", copy=1, x_mm=60.0, y_mm=60.0, turn_deg=0.0)
    around = Placement(part="frame", copy=1, x_mm=60.0, y_mm=60.0, turn_deg=0.0)
    planted = [replace(packing.plates[0], placements=(around, inside))]

    assert len(packing.plates) == 1
    assert verify(packing.plates, [bare, item_of("small", SQUARE)], bed=BED, spacing_mm=4.0) == ()
    assert len(plates_of(*wide)) == 2
    assert "opening" in " ".join(verify(planted, [bare, item_of("small", SQUARE)], bed=BED, spacing_mm=4.0))
    assert verify(planted, [bare, item_of("small", SQUARE, in_opening=True)], bed=BED, spacing_mm=4.0) == ()


L_BED = Bed(
    shape="polygon",
    size_mm=(180.0, 180.0),
    height_mm=100.0,
    margin_mm=5.0,
    outline_mm=((0, 0), (180, 0), (180, 90), (90, 90), (90, 180), (0, 180)),
)


def test_an_angled_part_lies_on_an_angled_bed() -> None:
    """An angle of 165 mm lies in the two arms of a bed of that shape; a square of 100 does not, and is named."""
    angle = shapely.Polygon([(0, 0), (165, 0), (165, 70), (70, 70), (70, 165), (0, 165)])
    packing = pack(
        [item_of("angle", angle), item_of("square", shapely.box(0, 0, 100, 100))],
        bed=L_BED,
        spacing_mm=4.0,
        seed=1,
        budget_s=0.0,
    )

    assert [part for part, _, _ in packing.unplaced] == ["square"]
    assert plates_of(item_of("angle", angle), bed=L_BED) == [["angle"]]


def test_nothing_lies_on_a_zone() -> None:
    """A clip in the middle halves the bed: a square that filled it fits no more, small ones lie around the clip."""
    clip = ((100.0, 100.0), (120.0, 100.0), (120.0, 120.0), (100.0, 120.0))
    bed = replace(BED, zones_mm=(clip,))
    place = Placement(part="a", copy=1, x_mm=110.0, y_mm=110.0, turn_deg=0.0)

    assert plates_of(item_of("a", shapely.box(0, 0, 150, 150)), bed=bed) == []
    assert plates_of(item_of("a", SQUARE, 12), bed=bed) == [["a"] * 12]
    assert "zone" in verify_plate([place], {"a": item_of("a", SQUARE).rings}, bed=bed, spacing_mm=4.0)[0]


def test_the_usable_ground_of_a_polygon_keeps_its_margin_everywhere() -> None:
    """Every point of the usable ground lies at least the margin from the edge, and it is no smaller than that."""
    ground, edge = usable_ground(L_BED), shapely.Polygon(L_BED.outline_mm).exterior

    assert min(shapely.Point(p).distance(edge) for p in ground.exterior.coords) == pytest.approx(5.0, abs=2e-3)
    # Closed form: 180² − 90² less a rim of 5 around 720 mm, five square corners back, a quarter circle at the inner one.
    expected = 24300 - 5 * 720 + 5 * 25 - 25 * 3.141592653589793 / 4
    assert ground.area == pytest.approx(expected, rel=1e-5)


def test_parts_that_touch_with_no_spacing_are_no_overlap_but_parts_that_cross_are() -> None:
    """With a spacing of 0 two squares may touch; a tenth of a millimetre into each other is named."""
    rings = {"a": item_of("a", SQUARE).rings}

    def wrong(x: float) -> tuple[str, ...]:
        places = [Placement(part="a", copy=c, x_mm=x0, y_mm=50.0, turn_deg=0.0) for c, x0 in ((1, 40.0), (2, x))]
        return verify_plate(places, rings, bed=BED, spacing_mm=0.0)

    assert wrong(80.0) == ()
    assert "overlap" in wrong(79.9)[0]


def test_rules_keep_parts_together_or_apart() -> None:
    """Parts that must lie together share a plate although it costs one; parts that must not never share one."""
    big, small, other = (
        item_of("big", shapely.box(0, 0, 200, 120)),
        item_of("small", shapely.box(0, 0, 200, 100)),
        item_of("other", SQUARE),
    )
    together = Rules(together=joined([("other", "small")]))
    apart = Rules(apart=(frozenset(("big", "other")), frozenset(("small", "other"))))

    assert len(plates_of(big, small, other)) == 2
    assert any({"small", "other"} <= set(plate) for plate in plates_of(big, small, other, rules=together))
    assert sorted(map(sorted, plates_of(big, small, other, rules=apart))) == [["big"], ["other"], ["small"]]


def test_a_set_too_large_for_one_bed_is_named_and_laid_without_the_rule() -> None:
    """Two parts that fill a bed each cannot lie together: said, and both are planned."""
    items = [item_of(name, shapely.box(0, 0, 200, 150)) for name in ("a", "b")]
    rules = Rules(together=joined([("a", "b")]))
    packing = pack(items, bed=BED, spacing_mm=4.0, seed=1, budget_s=0.0, rules=rules)

    assert packing.broken == (frozenset("ab"),)
    assert len(packing.plates) == 2
    assert "must lie on one plate" in verify(packing.plates, items, bed=BED, spacing_mm=4.0, rules=rules)[0]


def test_nine_chips_lie_in_a_ring_on_one_bed() -> None:
    """A ring of 200 mm outside and 160 inside, and nine chips of 30 mm: their sum of circles is a third of its room."""
    ring = shapely.Point(0, 0).buffer(100.0, quad_segs=32) - shapely.Point(0, 0).buffer(80.0, quad_segs=32)
    for chip in (shapely.Point(0, 0).buffer(15.0, quad_segs=16), shapely.box(0, 0, 30, 30)):
        items = item_of("ring", ring, in_opening=True), item_of("chip", chip, 9, in_opening=True)

        assert [len(plate) for plate in plates_of(*items)] == [10]
