"""The map of heights: what a nozzle runs into."""

from __future__ import annotations

import numpy as np
import pytest

from planner.gcode.height_map import HeightMap
from planner.gcode.reading.machine_state import COLUMNS_N, X0, X1, Y0, Y1, Z0, Z1
from planner.job import Printer


def _move(start: tuple[float, float, float], end: tuple[float, float, float]) -> np.ndarray:
    """Return one move."""
    move = np.zeros((1, COLUMNS_N))
    move[0, [X0, Y0, Z0]], move[0, [X1, Y1, Z1]] = start, end
    return move


@pytest.mark.parametrize(("z_mm", "deep_mm"), [(0.5, 0.5), (0.9, 0.1), (1.2, 0.0)])
def test_the_map_tells_how_deep_a_nozzle_runs(printer: Printer, z_mm: float, deep_mm: float) -> None:
    """A line lies 1 mm high; across it at 0.5 mm the nozzle runs 0.5 mm deep, at 0.9 mm 0.1 mm: a rule says what is too deep."""
    heights = HeightMap(printer.bed)
    moves = np.concatenate([_move((50, 60, 1.0), (90, 60, 1.0)), _move((70, 40, z_mm), (70, 80, z_mm))])
    heights.run(moves, np.array([True, False]))

    assert heights.struck_mm[0] == pytest.approx(deep_mm)
    if deep_mm:
        assert heights.struck_mm[1:] == pytest.approx([70.0, 60.0, z_mm], abs=1.0)


def test_a_line_does_not_strike_itself(printer: Printer) -> None:
    """Laying raises the map behind the nozzle only, so a line and the next one on it are clear."""
    heights = HeightMap(printer.bed)
    moves = np.concatenate([_move((50, 60, 0.2), (90, 60, 0.2)), _move((90, 60, 0.4), (50, 60, 0.4))])
    heights.run(moves, np.array([True, True]))

    assert heights.struck_mm[0] == 0.0
    assert heights.top_mm.max() == pytest.approx(0.4)
