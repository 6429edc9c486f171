"""A fine raster over one copy: exact sections and exact beads, asked at the middle of every cell."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numba import njit
from numpy.typing import NDArray

from planner.layers import Section

Floats = NDArray[np.float64]
Cells = NDArray[np.bool_]

CELL_MM, CELLS_MOST = 0.1, 2000
"""Cell of the raster; it grows with parts that would need more cells than this along one side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FineRaster:
    """Where a raster lies: the corner of its first cell, the cell's side, and rows and columns."""

    origin_mm: tuple[float, float]
    cell_mm: float
    shape: tuple[int, int]

    @classmethod
    def over(cls, low_mm: Floats, high_mm: Floats, around_mm: float) -> FineRaster:
        """Return a raster over a box (2,) and what lies around it."""
        size = high_mm - low_mm + 2 * around_mm
        cell = max(CELL_MM, float(size.max()) / CELLS_MOST)
        x, y = low_mm - around_mm
        columns, rows = (int(np.ceil(side / cell)) for side in size)
        return cls(origin_mm=(float(x), float(y)), cell_mm=cell, shape=(rows, columns))

    def section(self, section: Section) -> Cells:
        """Return the cells whose middles lie within a section."""
        cells = np.zeros(self.shape, dtype=np.bool_)
        for ring in section.to_polygons():
            _toggle(cells, np.ascontiguousarray(ring, dtype=np.float64), *self.origin_mm, self.cell_mm)
        _fill(cells)
        return cells

    def beads(self, start_mm: Floats, end_mm: Floats, width_mm: Floats) -> Cells:
        """Return the cells whose middles lie under beads: a straight line with round ends each."""
        cells = np.zeros(self.shape, dtype=np.bool_)
        rows = np.ascontiguousarray(np.column_stack([start_mm, end_mm, width_mm / 2.0]), dtype=np.float64)
        _lay(cells, rows[np.isfinite(rows).all(axis=1)], *self.origin_mm, self.cell_mm)
        return cells

    def at(self, cells: Cells, points_mm: Floats) -> Cells:
        """Return whether points (..., 2) lie in cells that are set."""
        column = np.floor((points_mm[..., 0] - self.origin_mm[0]) / self.cell_mm).astype(np.int64)
        row = np.floor((points_mm[..., 1] - self.origin_mm[1]) / self.cell_mm).astype(np.int64)
        inside = (row >= 0) & (row < self.shape[0]) & (column >= 0) & (column < self.shape[1])
        found: Cells = inside & cells[np.where(inside, row, 0), np.where(inside, column, 0)]
        return found

    def middle_mm(self, row: float, column: float) -> tuple[float, float]:
        """Return the place of a cell's middle."""
        return (
            self.origin_mm[0] + (column + 0.5) * self.cell_mm,
            self.origin_mm[1] + (row + 0.5) * self.cell_mm,
        )


@njit(cache=True)
def _toggle(cells, ring, x, y, cell):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Mark where a ring crosses the middle line of each row; what lies between two marks is inside."""
    n = ring.shape[0]
    for k in range(n):
        ax, ay, bx, by = ring[k, 0], ring[k, 1], ring[(k + 1) % n, 0], ring[(k + 1) % n, 1]
        if ay > by:
            ax, ay, bx, by = bx, by, ax, ay
        first, last = int(np.ceil((ay - y) / cell - 0.5)), int(np.ceil((by - y) / cell - 0.5))
        for row in range(max(first, 0), min(last, cells.shape[0])):
            at = ax + (bx - ax) * (y + (row + 0.5) * cell - ay) / (by - ay)
            column = max(int(np.ceil((at - x) / cell - 0.5)), 0)
            if column < cells.shape[1]:
                cells[row, column] = not cells[row, column]


@njit(cache=True)
def _fill(cells):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Set what lies between each odd mark of a row and the next one, in place: a third of numpy's time for it."""
    for row in range(cells.shape[0]):
        inside = False
        for column in range(cells.shape[1]):
            inside ^= cells[row, column]
            cells[row, column] = inside


@njit(cache=True)
def _disc(x, y, r, at):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Return from where to where a line across at a height passes a disc; nothing is inf to minus inf."""
    away = r * r - (at - y) * (at - y)
    if away < 0.0:
        return np.inf, -np.inf
    half = np.sqrt(away)
    return x - half, x + half


@njit(cache=True)
def _band(line, at):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Return from where to where a line across at a height passes the straight part of a bead."""
    dx, dy = line[2] - line[0], line[3] - line[1]
    length = np.sqrt(dx * dx + dy * dy)
    low, high = np.inf, -np.inf
    if length == 0.0:
        return low, high
    nx, ny = -dy / length * line[4], dx / length * line[4]
    xs = (line[0] + nx, line[2] + nx, line[2] - nx, line[0] - nx)
    ys = (line[1] + ny, line[3] + ny, line[3] - ny, line[1] - ny)
    for k in range(4):
        ay, by = ys[k], ys[(k + 1) % 4]
        if (ay <= at) != (by <= at):
            cross = xs[k] + (xs[(k + 1) % 4] - xs[k]) * (at - ay) / (by - ay)
            low, high = min(low, cross), max(high, cross)
    return low, high


@njit(cache=True)
def _lay(cells, lines, x, y, cell):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Set every cell whose middle lies under a bead, row by row: a bead is convex, so each row is one stretch."""
    for k in range(lines.shape[0]):
        line = lines[k]
        r = line[4]
        first = int(np.ceil((min(line[1], line[3]) - r - y) / cell - 0.5))
        last = int(np.floor((max(line[1], line[3]) + r - y) / cell - 0.5))
        for row in range(max(first, 0), min(last + 1, cells.shape[0])):
            at = y + (row + 0.5) * cell
            low, high = _disc(line[0], line[1], r, at)
            l2, h2 = _disc(line[2], line[3], r, at)
            l3, h3 = _band(line, at)
            low, high = min(low, l2, l3), max(high, h2, h3)
            if low <= high:
                begin = max(int(np.ceil((low - x) / cell - 0.5)), 0)
                end = min(int(np.floor((high - x) / cell - 0.5)) + 1, cells.shape[1])
                cells[row, begin:end] = True
