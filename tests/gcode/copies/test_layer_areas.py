"""One layer's areas and filament on a cuboid of 20 x 10 mm, printed in rings: by hand.

It lies turned by 30 degrees, so that the errors of the raster's cells along its sides cancel.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
import shapely.affinity
from numpy.typing import NDArray

from planner.gcode.copies.layer_areas import BLOCK_N, EDGE_MM, OPEN_SOLID_MM, RIM_MM, LayerAreas, layer_areas, want_of
from planner.gcode.copies.part_as_planned import Original
from planner.gcode.copies.piece import Sections
from planner.layers import Section
from tests.gcode.copies.rings import FIRST_MM, LAYER_MM, WIDTH_MM, Lines, pose, printed, prism, rings, turned
from tests.gcode.plate import SETTINGS
from tests.shapes import Manifold, solid_of

BOX = shapely.box(0, 0, 20, 10)
DEG = 30.0
LAYERS_N = 4
PART = Original.of(prism(shapely.affinity.rotate(BOX, DEG, origin=(0, 0)), LAYERS_N), SETTINGS, support=False)
CELL_MM = PART.raster(pose()).cell_mm
RINGS = rings(BOX)


def _layer(lines: Lines, k: int = 2, allowed: Section | None = None, *, fed: float = 1.0) -> LayerAreas:
    """Compare a layer of a piece that has some lines, as they are before it is turned, on all its layers."""
    piece = printed(LAYERS_N, lambda _: turned(lines, DEG), fed=fed)
    want = want_of(PART.sections, piece, pose(), k, SETTINGS)
    return layer_areas(PART.raster(pose()), piece, pose(), k, want, (allowed or Section()).rotate(DEG), SETTINGS)


def _mm2(cells: NDArray[np.bool_]) -> float:
    """Return the area of cells."""
    return float(cells.sum()) * CELL_MM**2


def test_a_layer_as_planned_has_nothing_outside_and_nothing_open() -> None:
    """200 mm2, solid in a part 0.84 mm high; the filament laid is what the motion takes."""
    found = _layer(RINGS)

    assert (_mm2(found.over), _mm2(found.open)) == (0.0, 0.0)
    assert found.section_mm2 == pytest.approx(200.0)
    assert found.solid_share == pytest.approx(1.0)
    assert found.laid_mm3 == pytest.approx(found.motion_mm3)
    assert found.most_mm3 == pytest.approx(200.0 * LAYER_MM)


def test_filament_is_told_apart_from_motion() -> None:
    """Fed a quarter too much, the same lines lay 1.25 times what their motion takes."""
    found = _layer(RINGS, fed=1.25)

    assert found.laid_mm3 / found.motion_mm3 == pytest.approx(1.25)


def test_a_bead_outside_has_its_area_unless_support_may_stand_there() -> None:
    """A line of 5 mm, 1 mm beside the part: a stadium, 5 w + pi w2 / 4 (geometry); none on the ground, where a brim may lie."""
    lines = [*RINGS, ((21.0, 2.0), (21.0, 7.0))]
    stadium = 5.0 * WIDTH_MM + math.pi * WIDTH_MM**2 / 4

    assert _mm2(_layer(lines).over) == pytest.approx(stadium, rel=0.05)
    assert _mm2(_layer(lines, allowed=Section.square((4, 10)).translate((20, 0))).over) == 0.0
    assert _mm2(_layer(lines, k=0).over) == 0.0


def test_without_its_outermost_line_the_rim_is_open() -> None:
    """The rim is a frame 0.2 mm broad, 0.15 mm within 20 x 10: by hand 19.7 x 9.7 - 19.3 x 9.3 = 11.6 mm2."""
    inner = [line for line in RINGS if all(_inset_mm(p) > WIDTH_MM for p in line)]
    outer, inset = 2 * EDGE_MM, 2 * (EDGE_MM + RIM_MM)

    assert len(inner) == len(RINGS) - 4
    wanted = (20.0 - outer) * (10.0 - outer) - (20.0 - inset) * (10.0 - inset)
    assert _mm2(_layer(inner).open) == pytest.approx(wanted, rel=0.05)


def test_a_hole_in_a_solid_layer_is_open_where_no_bead_is_near() -> None:
    """Rings alone to 3 mm within: open is what lies more than 0.6 mm farther in, to the blocks of 0.3 mm that are looked at."""
    rim = [line for line in RINGS if min(_inset_mm(p) for p in line) < 3.0 - WIDTH_MM / 2]
    bead_mm = max(_inset_mm(p) for line in rim for p in line) + WIDTH_MM / 2
    least, most = (
        (20.0 - 2 * free) * (10.0 - 2 * free)
        for free in (bead_mm + OPEN_SOLID_MM + BLOCK_N * CELL_MM, bead_mm + OPEN_SOLID_MM - BLOCK_N * CELL_MM)
    )

    assert bead_mm == pytest.approx(3.0, abs=WIDTH_MM)
    assert least < _mm2(_layer(rim).open) < most


def _inset_mm(p: tuple[float, float]) -> float:
    """Return how far a point lies within the outline."""
    return min(p[0], 20.0 - p[0], p[1], 10.0 - p[1])


def test_a_slope_wants_what_lies_between_its_bottom_and_top() -> None:
    """A wall that leans in by its height: a layer of 0.2 mm wants 10 mm times what its sections have in common at least."""
    wedge = solid_of(
        Manifold.hull_points(
            [(0, 0, 0), (20, 0, 0), (20, 10, 0), (0, 10, 0), (0, 0, 5), (15, 0, 5), (15, 10, 5), (0, 10, 5)]
        )
    )
    piece = printed(6, lambda _: RINGS)
    want = want_of(Sections.of(wedge), piece, pose(), 5, SETTINGS)
    middle = FIRST_MM + 4.5 * LAYER_MM
    hair = 0.48 * LAYER_MM

    assert want.middle.area() == pytest.approx(10.0 * (20.0 - middle))
    assert want.most.area() == pytest.approx(10.0 * (20.0 - middle + hair))
    assert want.least.area() == pytest.approx(10.0 * (20.0 - middle - hair))
