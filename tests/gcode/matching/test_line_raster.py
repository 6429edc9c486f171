"""Where lines lie on the bed."""

from __future__ import annotations

import numpy as np

from planner.gcode.matching.line_raster import CELL_MM, Laid
from planner.gcode.strokes import Strokes
from planner.job import Printer


def _line(start: tuple[float, float], end: tuple[float, float], level: float) -> Strokes:
    """Return one line."""
    return Strokes(
        start_mm=np.array([start]), end_mm=np.array([end]), level_mm=np.array([level]), volume_mm3=np.ones(1)
    )


def test_a_line_sets_the_cells_it_passes_and_no_others(printer: Printer) -> None:
    """A slanted line of 30 mm: every cell lies within a cell of it, and no gap is longer than a cell's diagonal."""
    laid = Laid.on(printer.bed)
    start, end = np.array([40.0, 50.0]), np.array([64.0, 68.0])
    laid.add(_line(tuple(start), tuple(end), 0.4))
    points = laid.centres_mm(laid.cells(4))
    way = (end - start) / 30.0
    along = np.sort((points - start) @ way)
    off = np.abs((points - start) @ [-way[1], way[0]])

    assert off.max() <= CELL_MM
    assert np.diff(along).max() <= CELL_MM * np.sqrt(2)
    assert along[-1] - along[0] >= 30.0 - 2 * CELL_MM


def test_slabs_are_tenths_of_a_millimetre_and_empty_ones_are_empty(printer: Printer) -> None:
    """What is laid at 0.4 mm is in slab 4 alone; cells and places are each other's inverse."""
    laid = Laid.on(printer.bed)
    laid.add(_line((40.0, 50.0), (60.0, 50.0), 0.4))
    row, column = np.nonzero(laid.cells(4))
    back = laid.cell_of(laid.centres_mm(laid.cells(4)))

    assert set(laid.slabs) == {4}
    assert not laid.cells(5).any()
    np.testing.assert_array_equal(back, (row, column))
