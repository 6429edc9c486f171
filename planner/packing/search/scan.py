"""A raster of the bed in which the first free place of a shape is found by jumping over what is taken.

Compiled; columns run along x, cells along y. ``next_taken[x, y]`` is the first taken cell at or after y in column
x, ``next_free[x, y]`` the first free one.
"""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Cells = NDArray[np.bool_]
Steps = NDArray[np.int32]


@njit(cache=True)
def index_columns(taken: Cells, next_taken: Steps, next_free: Steps, begin: int, end: int) -> None:  # pragma: no cover
    """Bring both tables of some columns up to date."""
    n = taken.shape[1]
    for x in range(begin, end):
        at_taken, at_free = n, n
        for y in range(n - 1, -1, -1):
            if taken[x, y]:
                at_taken = y
            else:
                at_free = y
            next_taken[x, y] = at_taken
            next_free[x, y] = at_free


@njit(cache=True)
def first_free(
    next_taken: Steps, next_free: Steps, runs: Steps, columns: int, rows: int
) -> Steps:  # pragma: no cover  compiled
    """Return, for each column that a shape's first cell may have, its least free row, or -1.

    ``runs`` are the shape's cells as (column, first row, row after the last).
    """
    found = np.full(columns, -1, dtype=np.int32)
    n = len(runs)
    for x in range(columns):
        y, k, held = 0, 0, 0
        while y < rows and held < n:
            column = x + runs[k, 0]
            hit = next_taken[column, y + runs[k, 1]]
            if hit < y + runs[k, 2]:
                y = next_free[column, hit] - runs[k, 1]
                held = 0
            else:
                held += 1
            k = k + 1 if k + 1 < n else 0
        if held >= n and y < rows:
            found[x] = y
    return found


@njit(cache=True)
def cells_within(
    edges_mm: NDArray[np.float64], x_mm: float, y_mm: float, columns: int, rows: int, cell_mm: float
) -> Cells:  # pragma: no cover  compiled
    """Return the cells whose middles lie within rings, by the even-odd rule; edges are rows (ax, ay, bx, by)."""
    found = np.zeros((columns, rows), dtype=np.bool_)
    for k in range(len(edges_mm)):
        ax, ay, bx, by = edges_mm[k]
        if ax > bx:
            ax, ay, bx, by = bx, by, ax, ay
        begin = max(0, int(np.ceil((ax - x_mm) / cell_mm - 0.5)))
        end = min(columns, int(np.ceil((bx - x_mm) / cell_mm - 0.5)))
        for i in range(begin, end):
            y = ay + (x_mm + (i + 0.5) * cell_mm - ax) * (by - ay) / (bx - ax)
            j = max(0, int(np.ceil((y - y_mm) / cell_mm - 0.5)))
            if j < rows:
                found[i, j] = not found[i, j]
    for i in range(columns):
        for j in range(1, rows):
            found[i, j] ^= found[i, j - 1]
    return found


def runs_of(cells: Cells) -> Steps:
    """Return a shape's cells as runs (column, first row, row after the last), spread so that hits come early."""
    padded = np.zeros((cells.shape[0], cells.shape[1] + 2), dtype=np.int8)
    padded[:, 1:-1] = cells
    edges = np.diff(padded, axis=1)
    starts, ends = np.argwhere(edges == 1), np.argwhere(edges == -1)
    runs = np.column_stack([starts, ends[:, 1]]).astype(np.int32)
    order = np.argsort((np.arange(len(runs)) * 0.618033988749895) % 1.0)
    return np.ascontiguousarray(runs[order])
