"""Whether bodies share much matter, told for many pairs at once by points of a lattice that lie well inside both.

Of parts that were drawn about their own origins every two lie over each other. To intersect each pair takes time that
grows with the square of their number; to look up which points of one lattice lie inside each part grows with it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import binary_erosion

from planner.mesh import Solid

Floats = NDArray[np.float64]
PITCH_SHARE = 1.0 / 3.0
"""Pitch as a share of how thick a part is, by its volume and area: some points have all their neighbours inside."""
PITCH_MM = (0.4, 4.0)
POINTS_MOST_N = 1_000_000
OFF = 0.381966
"""Share of the pitch by which the lattice misses the round numbers at which faces are drawn."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class InnerPoints:
    """Points of the lattice inside one part, those whose six neighbours lie inside as well.

    ``first`` (3,) is the index of the first point, ``inside`` (nx, ny, nz) tells which of them do.
    """

    first: NDArray[np.int64]
    inside: NDArray[np.bool_]

    def shared_n(self, other: InnerPoints) -> int:
        """Return how many of them two parts share."""
        low = np.maximum(self.first, other.first)
        high = np.minimum(self.first + self.inside.shape, other.first + other.inside.shape)
        if (high <= low).any():
            return 0
        cut = [
            one.inside[tuple(slice(int(a), int(b)) for a, b in zip(low - one.first, high - one.first, strict=True))]
            for one in (self, other)
        ]
        return int(np.count_nonzero(cut[0] & cut[1]))


def lattice_pitch_mm(solids: Iterable[Solid]) -> float:
    """Return how far points lie apart: a third of how thick the middle one of the parts is, more where one is large."""
    every = [solid for solid in solids if solid.area_mm2 > 0.0]
    if not every:
        return PITCH_MM[1]
    thick_mm = float(np.median([2.0 * abs(solid.volume_mm3) / solid.area_mm2 for solid in every]))
    largest_mm3 = max(float(np.prod(solid.size_mm)) for solid in every)
    return max(float(np.clip(PITCH_SHARE * thick_mm, *PITCH_MM)), float(np.cbrt(largest_mm3 / POINTS_MOST_N)))


def inner_points(solid: Solid, pitch_mm: float) -> InnerPoints:
    """Return the points of a lattice of some pitch that lie well inside a part, by rays straight up.

    Where a ray meets an odd number of faces, as on an edge, nothing is told of its points.
    """
    low, high = solid.bounds_mm
    first = np.ceil((low - pitch_mm * OFF) / pitch_mm).astype(np.int64)
    counts = np.maximum(np.floor((high - pitch_mm * OFF) / pitch_mm).astype(np.int64) - first + 1, 0)
    inside = np.zeros(counts, dtype=np.bool_)
    if not inside.size:
        return InnerPoints(first=first, inside=inside)
    x, y = (pitch_mm * (first[k] + np.arange(counts[k]) + OFF) for k in (0, 1))
    grid = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    origins = np.column_stack([grid, np.full(len(grid), low[2] - pitch_mm)])
    up = np.tile([0.0, 0.0, 1.0], (len(grid), 1))
    met, ray, _ = solid.trimesh.ray.intersects_location(origins, up, multiple_hits=True)
    order = np.lexsort((met[:, 2], ray))
    ray, high_mm = ray[order], met[order, 2]
    even = (np.bincount(ray, minlength=len(grid)) % 2 == 0)[ray]
    ray, steps = ray[even], np.clip(np.ceil(high_mm[even] / pitch_mm - OFF - first[2]), 0, counts[2]).astype(np.int64)
    turns = np.zeros((len(grid), int(counts[2]) + 1), dtype=np.int32)
    np.add.at(turns, (ray, steps), np.where(np.arange(len(ray)) % 2 == 0, 1, -1))
    inside = (turns.cumsum(axis=1)[:, :-1] > 0).reshape(inside.shape)
    return InnerPoints(first=first, inside=binary_erosion(inside))
