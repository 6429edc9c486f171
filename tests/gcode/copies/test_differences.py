"""Differences gathered over layers: connected places with their volume."""

from __future__ import annotations

import numpy as np
import pytest

from planner.gcode.copies.differences import Stack
from planner.gcode.copies.fine_raster import FineRaster

RASTER = FineRaster(origin_mm=(10.0, 20.0), cell_mm=0.1, shape=(100, 200))


def _cells(rows: slice, columns: slice) -> np.ndarray:
    """Return cells in a box."""
    cells = np.zeros(RASTER.shape, dtype=np.bool_)
    cells[rows, columns] = True
    return cells


def test_a_place_has_its_area_volume_heights_and_middle() -> None:
    """20 x 10 cells of 0.1 mm in three layers of 0.4: 2 mm2, 2.4 mm3, from 1.0 to 2.2 mm, its middle at (14, 21.5)."""
    stack = Stack(RASTER)
    for top in (1.4, 1.8, 2.2):
        stack.add(_cells(slice(10, 20), slice(30, 50)), 0.4, top)
    (found,) = stack.differences(0.5, 0.5)

    assert found.area_mm2 == pytest.approx(2.0)
    assert found.volume_mm3 == pytest.approx(2.4, rel=1e-5)
    assert (found.low_mm, found.high_mm) == pytest.approx((1.0, 2.2))
    assert found.at_mm == pytest.approx((14.0, 21.5))
    assert found.size_mm == pytest.approx((2.0, 1.0))


def test_far_places_are_two_and_the_larger_comes_first() -> None:
    """Two places 5 mm apart are told one by one; a seam of one cell's breadth and a single layer is none."""
    stack = Stack(RASTER)
    stack.add(_cells(slice(0, 10), slice(0, 20)), 0.4, 0.4)
    stack.add(_cells(slice(60, 90), slice(70, 100)), 0.4, 0.4)
    stack.add(_cells(slice(0, 40), slice(150, 151)), 0.2, 0.2)

    assert [round(one.area_mm2) for one in stack.differences(0.5, 0.5)] == [9, 2]
    assert Stack(RASTER).differences(0.5, 0.5) == ()
