"""The fine raster: areas and places as geometry has them."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.gcode.copies.fine_raster import FineRaster
from planner.layers import Section

RASTER = FineRaster.over(np.array([0.0, 0.0]), np.array([20.0, 12.0]), 2.0)
CELL_MM2 = RASTER.cell_mm**2


def test_a_section_fills_its_area_and_not_its_hole() -> None:
    """20 x 12 mm with a hole of 6 x 4: 216 mm2, by the middles of cells within half a cell along the outline."""
    plate = Section.square((20, 12)) - Section.square((6, 4)).translate((3, 3))
    cells = RASTER.section(plate)

    assert cells.sum() * CELL_MM2 == pytest.approx(216.0, abs=0.5 * RASTER.cell_mm * (64 + 20))
    assert RASTER.at(cells, np.array([[1.0, 1.0], [5.0, 5.0], [-1.0, 5.0], [500.0, 5.0]])).tolist() == [
        True,
        False,
        False,
        False,
    ]


def test_a_bead_is_a_stadium_wherever_it_points() -> None:
    """Length times width plus a circle (geometry), within 2 % for a slanted line of 13 mm; a line of no length too."""
    start, end, width = np.array([[3.0, 3.0]]), np.array([[15.0, 8.0]]), np.array([2.0])

    assert RASTER.beads(start, end, width).sum() * CELL_MM2 == pytest.approx(13 * 2 + math.pi, rel=0.02)
    assert RASTER.beads(start, start, width).sum() * CELL_MM2 == pytest.approx(math.pi, rel=0.05)


def test_large_parts_get_larger_cells() -> None:
    """A part of 400 mm has 2000 cells along its side, each then of 0.2 mm."""
    large = FineRaster.over(np.array([0.0, 0.0]), np.array([400.0, 10.0]), 0.0)

    assert large.cell_mm == pytest.approx(0.2)
    assert large.shape == (50, 2000)


def test_a_slanted_side_is_followed() -> None:
    """A triangle of 18 by 10 mm has 90 mm2, and its slanted side runs from corner to corner."""
    cells = RASTER.section(Section([[(1.0, 1.0), (19.0, 1.0), (1.0, 11.0)]]))

    assert cells.sum() * CELL_MM2 == pytest.approx(90.0, abs=0.5 * RASTER.cell_mm * (18 + 10 + 20.6))
    assert RASTER.at(cells, np.array([[9.8, 5.8], [10.2, 6.2]])).tolist() == [True, False]
