"""A part as a raster of its lines would show it."""

from __future__ import annotations

import numpy as np
import pytest

from planner.gcode.matching.part_shape import SUPPORT_MM, TOUCHED_MM, long_of, part_shape
from tests.shapes import Manifold, cuboid, solid_of

WIDTH_MM = 0.45


def test_long_is_the_ratio_of_the_sides_of_a_rectangle() -> None:
    """Second moments of a rectangle go with the squares of its sides (geometry): 40 x 10 is 4, turned or not."""
    x, y = (values.ravel() for values in np.meshgrid(np.linspace(0, 40, 201), np.linspace(0, 10, 201)))
    points = np.column_stack([x, y])
    turn = np.array([[0.6, -0.8], [0.8, 0.6]])

    assert long_of(points) == pytest.approx(4.0, rel=0.01)
    assert long_of(points @ turn.T) == pytest.approx(4.0, rel=0.01)


def test_sections_lie_about_the_middle_and_look_as_large_as_cells_make_them() -> None:
    """A cuboid of 20 x 12 at (5, 5): grown by what a touched cell adds, less half a line, about its own middle."""
    moved = solid_of(Manifold.cube((20, 12, 6)).translate((5, 5, 0)))
    shape = part_shape(moved, [1.0, 3.0], (0.0, 6.0), support=False, gap_mm=1.5, width_mm=WIDTH_MM)
    grown = 2 * (TOUCHED_MM - WIDTH_MM / 2)

    assert shape is not None
    assert shape.middle_mm == pytest.approx([15.0, 11.0])
    assert [one.area for one in shape.sections] == pytest.approx([(20 + grown) * (12 + grown)] * 2, rel=1e-3)
    assert shape.allowed == shape.sections


def test_on_support_lines_may_lie_under_all_of_the_shadow() -> None:
    """A T: at its foot the section is the stem, and lines are allowed under the whole top."""
    tee = solid_of(Manifold.cube((4, 8, 8)) + Manifold.cube((20, 8, 2)).translate((-8, 0, 8)))
    shape = part_shape(tee, [2.0], (0.0, 10.0), support=True, gap_mm=1.5, width_mm=WIDTH_MM)

    assert shape is not None
    assert shape.sections[0].area < 50
    assert shape.allowed[0].area > (20 + 2 * SUPPORT_MM) * 8


def test_nothing_in_a_span_of_heights_is_no_shape() -> None:
    """Above a part there is none."""
    assert part_shape(cuboid(10, 10, 4), [5.0], (4.5, 6.0), support=False, gap_mm=1.5, width_mm=WIDTH_MM) is None
