"""Polygons become triangles, also where they are not convex."""

from __future__ import annotations

from collections.abc import Sequence

import manifold3d
import numpy as np
import shapely
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MANY, FAN_FROM = 1000, 20_000
"""Corners from which a polygon is cut by a quicker way, and from which a crossed one is cut as a fan."""


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
    if len(corners) > MANY and (quick := _quick(flat)) is not None:
        return corners[quick]
    return corners[np.asarray(manifold3d.triangulate([flat]), dtype=np.int64)]


def _quick(flat: Floats) -> Ints | None:
    """Return the triangles of a large plane polygon by constrained Delaunay, which grows with n log n; ears with n^2.

    None where its outline crosses or touches itself: then corners cannot be told apart by their place, unless
    there are so many that ears would take minutes; of such a polygon a fan is as good as any. Whether an outline
    crosses is read off the triangles: to ask it of the outline takes as long as to cut it.
    """
    found = _delaunay(flat) if len(np.unique(flat, axis=0)) == len(flat) else None
    if found is None and len(flat) > FAN_FROM:
        fan = np.arange(1, len(flat) - 1)
        return np.column_stack([np.zeros_like(fan), fan, fan + 1])
    return found


def _delaunay(flat: Floats) -> Ints | None:
    """Return the triangles of a plane polygon whose corners all differ; None where they do not fill its outline."""
    try:
        found = shapely.get_parts(shapely.constrained_delaunay_triangles(shapely.Polygon(flat)))
    except shapely.errors.GEOSException:  # it crosses itself: no corner is left to begin at
        return None
    rings = shapely.get_coordinates(found).reshape(-1, 4, 2)[:, :3]
    _, index = np.unique(np.vstack([flat, rings.reshape(-1, 2)]), axis=0, return_inverse=True)
    index = index.reshape(-1)
    corner = np.full(int(index.max()) + 1, -1, dtype=np.int64)
    corner[index[: len(flat)]] = np.arange(len(flat))
    triangles = corner[index[len(flat) :]].reshape(-1, 3)
    a, b, c = (flat[triangles[:, k]] for k in range(3))
    area = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    triangles = np.where((area >= 0)[:, None], triangles, triangles[:, ::-1])
    return triangles if _fill(triangles, len(flat)) else None


def _fill(triangles: Ints, n: int) -> bool:
    """Return whether triangles fill an outline of n corners: its sides are theirs once, all others are shared."""
    if len(triangles) != n - 2 or triangles.min() < 0:
        return False
    start, end = triangles.ravel(), np.roll(triangles, -1, axis=1).ravel()
    forth, back = np.sort(start * n + end), np.sort(end * n + start)
    sides = np.arange(n) * n + (np.arange(n) + 1) % n
    alone = np.setdiff1d(forth, back, assume_unique=True)
    return bool((np.diff(forth) > 0).all()) and np.array_equal(alone, np.sort(sides))
