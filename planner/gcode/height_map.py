"""A map of how high the plastic stands, kept while a program runs: what the nozzle would run into."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

from planner.gcode.reading.machine_state import X0, X1, Y0, Y1, Z0, Z1
from planner.job import Bed

Floats = NDArray[np.float64]
Mask = NDArray[np.bool_]

CELL_MM = 0.8
"""Cell of the map: about two lines wide, so that a nozzle that passes through a cell touches what stands in it."""
AROUND_MM = 20.0


class HeightMap:
    """Heights in cells over a bed and a little around it; it grows as lines are laid."""

    def __init__(self, bed: Bed) -> None:
        width, depth = bed.size_mm
        shape = int((depth + 2 * AROUND_MM) / CELL_MM), int((width + 2 * AROUND_MM) / CELL_MM)
        self.top_mm = np.zeros(shape)
        self.struck_mm = np.array([0.0, 0.0, 0.0, 0.0])

    def run(self, moves: Floats, laid: Mask) -> None:
        """Follow moves; remember where the nozzle ran lowest below what stood there: depth, x, y, z."""
        columns = np.ascontiguousarray(moves[:, [X0, Y0, Z0, X1, Y1, Z1]])
        _follow(self.top_mm, columns, np.ascontiguousarray(laid), self.struck_mm)


@njit(cache=True)
def _follow(top, moves, laid, struck):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Step along every move by half a cell; lines raise the map behind the nozzle, when the move is done."""
    for k in range(moves.shape[0]):
        x, y, z = moves[k, 0], moves[k, 1], moves[k, 2]
        dx, dy, dz = moves[k, 3] - x, moves[k, 4] - y, moves[k, 5] - z
        length = np.sqrt(dx * dx + dy * dy)
        if not 0.0 < length < 1e5:
            continue
        steps = int(length / CELL_MM * 2.0) + 1
        for laying in range(2 if laid[k] else 1):
            for i in range(steps + 1):
                share = i / steps
                column = int(np.floor((x + dx * share + AROUND_MM) / CELL_MM))
                row = int(np.floor((y + dy * share + AROUND_MM) / CELL_MM))
                if row < 0 or row >= top.shape[0] or column < 0 or column >= top.shape[1]:
                    continue
                at = z + dz * share
                if laying == 1:
                    top[row, column] = max(top[row, column], at)
                elif top[row, column] - at > struck[0]:
                    struck[0], struck[3] = top[row, column] - at, at
                    struck[1], struck[2] = x + dx * share, y + dy * share
