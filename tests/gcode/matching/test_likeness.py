"""How alike cells and a part are, turned in every way."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import shapely.affinity

from planner.gcode.matching.likeness import turns_of
from planner.gcode.matching.part_shape import PartShape

ELL = shapely.affinity.translate(shapely.union_all([shapely.box(0, 0, 24, 6), shapely.box(0, 0, 6, 14)]), -9.6, -4.6)
CELL_MM = 0.25


def _shape(section: shapely.Geometry) -> PartShape:
    """Return a part that has one section at all heights."""
    return PartShape(sections=(section,), allowed=(section,), shadow=section, middle_mm=np.zeros(2))


def _cells(section: shapely.Geometry) -> np.ndarray:
    """Return the middles of the cells within a section."""
    x, y = (values.ravel() for values in np.meshgrid(*[np.arange(-30, 30, CELL_MM) + CELL_MM / 2] * 2))
    inside = shapely.contains_xy(section, x, y)
    return np.column_stack([x[inside], y[inside]])


@pytest.mark.parametrize("turn_deg", [0.0, 37.0, 200.0])
def test_the_turn_of_a_piece_is_found(turn_deg: float) -> None:
    """An L that lies turned is turned back, to a degree, and is then alike to nearly all of its area."""
    lying = shapely.affinity.rotate(ELL, turn_deg, origin=(0, 0))
    found, share = turns_of([_cells(lying)], _shape(ELL), CELL_MM**2, 0.05)[0]

    assert abs((found + turn_deg + 180.0) % 360.0 - 180.0) <= 1.0
    assert share > 0.95


def test_a_rectangle_has_two_turns_to_look_at() -> None:
    """Half a turn makes no difference to it: both stay for the exact look."""
    bar = shapely.box(-12, -4, 12, 4)
    found = sorted(turn for turn, _ in turns_of([_cells(bar)], _shape(bar), CELL_MM**2, 0.02))

    assert min(abs(turn - 180.0) for turn in found) <= 1.0
    assert min(abs((turn + 180.0) % 360.0 - 180.0) for turn in found) <= 1.0


def test_another_shape_is_little_alike() -> None:
    """A disc of the same area shares no more than two thirds of the joint area with an L."""
    disc = shapely.Point(0, 0).buffer(float(np.sqrt(ELL.area / np.pi)))

    assert turns_of([_cells(disc)], _shape(ELL), CELL_MM**2, 0.05)[0][1] < 0.67
