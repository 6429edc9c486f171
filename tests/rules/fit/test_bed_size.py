"""The bed rule on beds of any shape: exact on convex ones, no false go beside zones, a hold where it is open."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray

from planner.finding import Verdict
from planner.job import Bed, usable_ground
from planner.pose.bed_of_any_shape import clear_pieces, largest_on
from planner.rules.fit.bed_size import BedOver, bed_over
from planner.survey import largest_factor

BED = Bed(shape="rectangle", size_mm=(220.0, 220.0), height_mm=240.0, margin_mm=5.0)
CORNERS = ((0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (100.0, 100.0), (100.0, 200.0), (0.0, 200.0))
L_BED = Bed(shape="polygon", size_mm=(200.0, 200.0), height_mm=240.0, margin_mm=0.0, outline_mm=CORNERS)
DOWN = (0.0, 0.0, -1.0)


def outline(seed: int) -> NDArray[np.float64]:
    """Return a random convex outline, counter-clockwise."""
    rng = np.random.default_rng(seed)
    cloud = shapely.convex_hull(shapely.multipoints(rng.normal(size=(30, 2)) * rng.uniform(8, 50, 2)))
    return np.asarray(shapely.orient_polygons(cloud).exterior.coords)[:-1]


def over(points: NDArray[np.float64], bed: Bed) -> BedOver:
    """Bind the rule for a prism on an outline, 10 mm high."""
    hull = np.vstack([np.column_stack([points, np.full(len(points), z)]) for z in (0.0, 10.0)])
    return bed_over("part", hull, DOWN, (DOWN,), bed)


def test_a_pose_that_leaves_a_few_percent_more_is_named() -> None:
    """100 x 100 x 104 mm under a height of 100: upright it prints at 96.1 % at most, on its side at 100 %."""
    hull = np.array([(x, y, z) for x in (0.0, 100.0) for y in (0.0, 100.0) for z in (0.0, 104.0)])
    found = bed_over("part", hull, DOWN, (DOWN, (-1.0, 0.0, 0.0)), replace(BED, height_mm=100.0)).at(1.0)

    assert found.verdict is Verdict.NO_GO
    assert "lay it another way (there it fits by itself up to 100.0 %)" in found.remedy


@pytest.mark.parametrize("seed", range(6))
def test_on_a_rectangle_the_linear_program_equals_rotating_calipers(seed: int) -> None:
    """Two methods, one answer: duality over balanced edges, and calipers (Toussaint 1983)."""
    points, (wide, deep) = outline(seed), np.random.default_rng(seed).uniform(60, 240, 2)

    ours, turn = largest_on(points, shapely.box(3, 4, 3 + wide, 4 + deep))
    assert ours == pytest.approx(largest_factor(points, wide, deep)[0], rel=1e-6)
    turned = shapely.affinity.rotate(shapely.Polygon(points * ours), turn, origin=(0, 0))
    assert (np.ptp(np.asarray(turned.exterior.coords), axis=0) <= np.array([wide, deep]) + 1e-4).all()


def test_closed_forms_on_a_triangle_and_a_hexagon() -> None:
    """Closed forms: the largest square in an equilateral triangle of side a has side a(2√3 − 3); a hexagon takes itself."""
    triangle = shapely.Polygon([(0, 0), (100, 0), (50, 50 * 3**0.5)])
    square = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
    hexagon = np.array([[np.cos(a), np.sin(a)] for a in np.pi / 3 * np.arange(6)])

    assert largest_on(square, triangle)[0] == pytest.approx(100 * (2 * 3**0.5 - 3), rel=1e-6)
    assert largest_on(hexagon, shapely.Polygon(80 * hexagon + 90))[0] == pytest.approx(80.0, rel=1e-6)


def test_a_zone_takes_the_strip_beside_it_and_what_is_open_is_a_hold() -> None:
    """A worn strip of 20 mm along a side: 200 x 100 fits, 200 x 200 does not. A clip in that side: that stays open."""
    zone = ((0.0, 0.0), (25.0, 0.0), (25.0, 220.0), (0.0, 220.0))
    bed = replace(BED, zones_mm=(zone,))
    plate = np.array([[0.0, 0.0], [200.0, 0.0], [200.0, 100.0], [0.0, 100.0]])

    assert over(plate, bed).at(1.0).verdict == "go"
    assert over(plate, bed).flat_most == pytest.approx(210.0 / 200.0, rel=1e-6)
    assert over(plate / [1.0, 0.5], bed).at(1.0).verdict == "no-go"
    assert over(plate / [1.0, 0.5], BED).at(1.0).verdict == "go"
    assert over(plate / [1.0, 0.5], BED).at(1.1).verdict == "no-go"
    clip = replace(BED, zones_mm=(((0.0, 100.0), (15.0, 100.0), (15.0, 120.0), (0.0, 120.0)),))
    open_yet = over(plate / [1.0, 0.5], clip)
    assert [open_yet.at(s).verdict for s in (0.99, 1.0, 1.01, 1.06)] == ["go", "go", "hold", "no-go"]
    assert open_yet.turns() == (open_yet.flat_most, over(plate / [1.0, 0.5], BED).flat_most)


def test_every_piece_of_a_notched_bed_is_convex_and_lies_on_it() -> None:
    """The pieces of an L are its two arms; of a bed with a clip in the middle its four sides; of a plain one itself."""
    clip = replace(BED, zones_mm=(((100.0, 100.0), (120.0, 100.0), (120.0, 120.0), (100.0, 120.0)),))
    for bed, n in ((L_BED, 2), (clip, 4), (BED, 1)):
        pieces, whole = clear_pieces(bed)
        kept = [piece for piece in pieces if piece.area > 9e3]

        assert whole == (n == 1)
        assert len(kept) >= n
        assert all(usable_ground(bed).buffer(1e-6).covers(piece) for piece in pieces)
        assert all(piece.convex_hull.area == pytest.approx(piece.area) for piece in pieces)


def test_a_round_bed_with_a_clip_is_never_judged_larger_than_without() -> None:
    """The clip at the rim costs some; nothing that fits beside it would not fit the whole circle."""
    whole = Bed(shape="circle", size_mm=(200.0, 200.0), height_mm=240.0, margin_mm=5.0)
    clip = replace(whole, zones_mm=(((90.0, 0.0), (110.0, 0.0), (110.0, 15.0), (90.0, 15.0)),))
    for seed in range(3):
        beside, plain = over(outline(seed), clip), over(outline(seed), whole)

        assert 0.5 * plain.flat_most < beside.flat_most < plain.flat_most
        assert beside.flat_open == plain.flat_most


def test_a_tall_part_is_bound_by_the_height() -> None:
    """400 mm high on a bed that takes 240: 60 % at most, however small its outline."""
    square = np.array([[x, y, z] for x in (0.0, 20.0) for y in (0.0, 20.0) for z in (0.0, 400.0)])
    found = bed_over("mast", square, DOWN, (DOWN,), BED)

    assert found.most == pytest.approx(0.6)
    assert found.flat_most > 10.0
    assert [found.at(s).verdict for s in (0.59, 0.61)] == [Verdict.GO, Verdict.NO_GO]
    assert "its height takes" in found.at(0.61).why
