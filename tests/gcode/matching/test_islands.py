"""Islands: what stands on the bed by itself."""

from __future__ import annotations

import numpy as np
import pytest

from planner.gcode.matching.islands import closed, islands_of
from planner.gcode.matching.line_raster import CELL_MM, Laid
from planner.gcode.strokes import Strokes
from planner.job import Printer


def _block(x: float, y: float, side: float, top: float) -> Strokes:
    """Return the lines of a solid block, 0.4 mm apart, in layers of 0.2."""
    ys, levels = np.arange(y, y + side, 0.4), np.arange(0.2, top + 0.1, 0.2)
    at, level = (values.ravel() for values in np.meshgrid(ys, levels))
    return Strokes(
        start_mm=np.column_stack([np.full(len(at), x), at]),
        end_mm=np.column_stack([np.full(len(at), x + side), at]),
        level_mm=level,
        volume_mm3=np.ones(len(at)),
    )


def test_two_blocks_are_two_islands_of_their_heights(printer: Printer) -> None:
    """Blocks of 12 and 8 mm, 20 mm apart, 3 and 2 mm high; a line on the ground through both joins nothing."""
    laid = Laid.on(printer.bed)
    laid.add(_block(50, 50, 12, 3.0))
    laid.add(_block(82, 50, 8, 2.0))
    laid.add(_line())
    found = islands_of(laid, 0.2)

    assert [round(island.top_mm, 1) for island in found] == pytest.approx([3.0, 2.0], abs=0.11)
    assert [island.cells.sum() * CELL_MM**2 for island in found] == pytest.approx([144, 64], rel=0.15)


def _line() -> Strokes:
    """Return a line on the ground through both blocks."""
    return Strokes(
        start_mm=np.array([[45.0, 52.0]]),
        end_mm=np.array([[95.0, 52.0]]),
        level_mm=np.array([0.2]),
        volume_mm3=np.ones(1),
    )


@pytest.mark.parametrize(("gap_mm", "filled"), [(1.0, False), (3.0, True), (np.inf, True)])
def test_gaps_are_closed_up_to_a_width(gap_mm: float, filled: bool) -> None:
    """A hole of 2 mm within a ring stays where gaps of 1 mm are closed, not where 3 mm or all are."""
    cells = np.ones((20, 20), dtype=np.bool_)
    cells[8:12, 8:12] = False
    cells = np.pad(cells, 10)

    assert bool(closed(cells, gap_mm)[20, 20]) == filled
