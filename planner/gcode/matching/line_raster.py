"""Where lines lie: a coarse raster of the bed for every tenth of a millimetre of height, packed to bits."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numba import njit
from numpy.typing import NDArray

from planner.gcode.strokes import Strokes
from planner.job import Bed

Floats = NDArray[np.float64]
Cells = NDArray[np.bool_]

CELL_MM, SLAB_MM, AROUND_MM = 0.5, 0.1, 20.0
"""Cell of the raster, height of a slab, and how far it reaches beyond the bed."""


@dataclass
class Laid:
    """A raster that grows slab by slab; ``origin_mm`` is the corner of its first cell."""

    origin_mm: tuple[float, float]
    shape: tuple[int, int]
    slabs: dict[int, NDArray[np.uint8]] = field(default_factory=dict)

    @classmethod
    def on(cls, bed: Bed) -> Laid:
        """Return an empty raster over a bed."""
        width, depth = bed.size_mm
        shape = int((depth + 2 * AROUND_MM) / CELL_MM), int((width + 2 * AROUND_MM) / CELL_MM)
        return cls(origin_mm=(-AROUND_MM, -AROUND_MM), shape=shape)

    def add(self, strokes: Strokes) -> None:
        """Draw lines into the slabs at their height."""
        slabs = np.floor(strokes.level_mm / SLAB_MM + 1e-6).astype(np.int64)
        ends = np.ascontiguousarray(np.column_stack([strokes.start_mm, strokes.end_mm]))
        for slab in np.unique(slabs):
            grid = self.cells(int(slab))
            _draw(grid, ends[slabs == slab], self.origin_mm[0], self.origin_mm[1], CELL_MM)
            self.slabs[int(slab)] = np.packbits(grid)

    def cells(self, slab: int) -> Cells:
        """Return one slab, empty where nothing lies."""
        packed = self.slabs.get(slab)
        if packed is None:
            return np.zeros(self.shape, dtype=np.bool_)
        flat = np.unpackbits(packed, count=self.shape[0] * self.shape[1])
        return flat.reshape(self.shape).astype(np.bool_)

    def cell_of(self, points_mm: Floats) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
        """Return rows and columns of the cells that points (n, 2) lie in, the nearest ones for what lies outside."""
        column = np.floor((points_mm[:, 0] - self.origin_mm[0]) / CELL_MM).astype(np.int64)
        row = np.floor((points_mm[:, 1] - self.origin_mm[1]) / CELL_MM).astype(np.int64)
        return np.clip(row, 0, self.shape[0] - 1), np.clip(column, 0, self.shape[1] - 1)

    def centres_mm(self, cells: Cells) -> Floats:
        """Return the middles (n, 2) of the cells that are set."""
        row, column = np.nonzero(cells)
        return np.column_stack(
            [self.origin_mm[0] + (column + 0.5) * CELL_MM, self.origin_mm[1] + (row + 0.5) * CELL_MM]
        )


@njit(cache=True)
def _draw(grid, ends, x, y, cell):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Set every cell that a line passes, in steps of half a cell."""
    for k in range(ends.shape[0]):
        dx, dy = ends[k, 2] - ends[k, 0], ends[k, 3] - ends[k, 1]
        length = np.sqrt(dx * dx + dy * dy)
        if not length < 1e5:
            continue
        steps = int(length / cell * 2.0) + 1
        for i in range(steps + 1):
            column = int(np.floor((ends[k, 0] + dx * i / steps - x) / cell))
            row = int(np.floor((ends[k, 1] + dy * i / steps - y) / cell))
            if row >= 0 and row < grid.shape[0] and column >= 0 and column < grid.shape[1]:
                grid[row, column] = True
