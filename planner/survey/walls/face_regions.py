"""Connected regions of samples below rising thicknesses, each known by its thinnest sample."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

NEIGHBOURS = np.array([(x, y, z) for x in (-1, 0, 1) for y in (-1, 0, 1) for z in (-1, 0, 1) if (x, y, z) > (0, 0, 0)])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Region:
    """The samples ``rows`` that are connected below a thickness, ``seed`` the thinnest of them."""

    below_mm: float
    seed: int
    rows: Ints


def regions(points: Floats, thickness: Floats, levels: Floats, cell_mm: float) -> Iterator[Region]:
    """Yield every connected region below every level; samples in neighbouring cells of a grid are connected."""
    order = np.argsort(thickness, kind="stable")
    grid = np.floor((points - points.min(axis=0)) / cell_mm).astype(np.int64) + 1
    size = grid.max(axis=0) + 2
    key = (grid[:, 0] * size[1] + grid[:, 1]) * size[2] + grid[:, 2]
    cells, first, cell = np.unique(key[order], return_index=True, return_inverse=True)
    thinnest = order[first]  # the first in order of thickness
    of_sample = np.empty(len(points), np.int64)
    of_sample[order] = cell
    steps = (NEIGHBOURS[:, 0] * size[1] + NEIGHBOURS[:, 1]) * size[2] + NEIGHBOURS[:, 2]
    links = []
    for step in steps:
        at = np.searchsorted(cells, cells + step)
        found = np.flatnonzero((at < len(cells)) & (cells[np.minimum(at, len(cells) - 1)] == cells + step))
        links.append(np.stack([found, at[found]], axis=1))
    link = np.concatenate(links)
    least = thickness[thinnest]
    for level in levels:
        open_ = least <= level
        if not open_.any():
            continue
        used = link[open_[link].all(axis=1)]
        graph = coo_matrix((np.ones(len(used)), (used[:, 0], used[:, 1])), shape=(len(cells), len(cells)))
        piece = connected_components(graph, directed=False)[1]
        rows = np.flatnonzero(thickness <= level)
        mine = piece[of_sample[rows]]
        by_piece = np.argsort(mine, kind="stable")
        ends = np.flatnonzero(np.diff(mine[by_piece])) + 1
        for group in np.split(rows[by_piece], ends):
            yield Region(below_mm=float(level), seed=int(group[np.argmin(thickness[group])]), rows=group)
