"""The raster's scan equals trying every cell."""

from __future__ import annotations

import numpy as np
import shapely

from planner.packing.search.scan import cells_within, first_free, index_columns, runs_of


def test_the_first_free_place_equals_trying_every_cell() -> None:
    """On 20 random beds, for a random shape, each column's least free row is the one that plain loops find."""
    for seed in range(20):
        rng = np.random.default_rng(seed)
        taken, shape = rng.random((30, 24)) < 0.15, rng.random((4, 5)) < 0.6
        shape[0, 0] = True
        next_taken, next_free = np.zeros(taken.shape, np.int32), np.zeros(taken.shape, np.int32)
        index_columns(taken, next_taken, next_free, 0, len(taken))
        columns, rows = taken.shape[0] - 3, taken.shape[1] - 4
        found = first_free(next_taken, next_free, runs_of(shape), columns, rows)
        for x in range(columns):
            free = [y for y in range(rows) if not (taken[x : x + 4, y : y + 5] & shape).any()]

            assert found[x] == (free[0] if free else -1)


def test_cells_within_rings_are_those_whose_middles_lie_inside() -> None:
    """A ring with a hole, cell by cell against shapely."""
    ring = shapely.Point(6.1, 5.2).buffer(4.7).difference(shapely.box(5, 4, 7, 7))
    lines = [np.array(line.coords) for line in (ring.exterior, *ring.interiors)]
    edges = np.vstack([np.column_stack([line[:-1], line[1:]]) for line in lines])
    cells = cells_within(np.ascontiguousarray(edges), 0.0, 0.0, 26, 24, 0.5)

    for i in range(26):
        for j in range(24):
            assert cells[i, j] == ring.contains(shapely.Point((i + 0.5) / 2, (j + 0.5) / 2))
