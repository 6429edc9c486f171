"""Polygons become triangles, also where they are not convex."""

from __future__ import annotations

from collections.abc import Sequence

import manifold3d
import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def triangles_of(vertices: Floats, polygons: Sequence[Ints]) -> Ints:
    """Return triangles (m, 3) of polygons, each a row of corners in ``vertices`` (n, 3); fewer than three are none.

    A quadrilateral is split along the diagonal inside it; a larger polygon by ear-cutting in its own plane.
    """
    sizes = np.array([len(polygon) for polygon in polygons], dtype=np.int64)
    parts = [np.empty((0, 3), dtype=np.int64)]
    for size in np.unique(sizes[sizes >= 3]):
        alike = np.array([polygons[int(k)] for k in np.flatnonzero(sizes == size)], dtype=np.int64)
        if size == 3:
            parts.append(alike)
        elif size == 4:
            parts.append(_quads(vertices, alike))
        else:
            parts += [_cut(vertices, corners) for corners in alike]
    return np.concatenate(parts)


def _quads(vertices: Floats, quads: Ints) -> Ints:
    """Split quadrilaterals (k, 4) along the diagonal whose two triangles look the same way."""
    a, b, c, d = (vertices[quads[:, k]] for k in range(4))
    one = (np.cross(b - a, c - a) * np.cross(c - a, d - a)).sum(axis=1)
    other = (np.cross(b - a, d - a) * np.cross(c - b, d - b)).sum(axis=1)
    second = ((one <= 0) & (other > 0))[:, None, None]
    split: Ints = np.where(second, quads[:, [[0, 1, 3], [1, 2, 3]]], quads[:, [[0, 1, 2], [0, 2, 3]]])
    return split.reshape(-1, 3)


def _cut(vertices: Floats, corners: Ints) -> Ints:
    """Cut the ears of one polygon, in the plane of its vector area (Newell)."""
    points = vertices[corners]
    normal = np.cross(points, np.roll(points, -1, axis=0)).sum(axis=0)
    length = float(np.linalg.norm(normal))
    if length == 0.0:  # no area: any triangles will do, they are dropped later
        return np.column_stack([np.full(len(corners) - 2, corners[0]), corners[1:-1], corners[2:]])
    normal /= length
    x = np.cross(normal, np.eye(3)[int(np.argmin(np.abs(normal)))])
    x /= np.linalg.norm(x)
    flat = np.ascontiguousarray(points @ np.column_stack([x, np.cross(normal, x)]))
    return corners[np.asarray(manifold3d.triangulate([flat]), dtype=np.int64)]
