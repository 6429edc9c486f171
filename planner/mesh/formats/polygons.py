"""Polygons become triangles, also where they are not convex."""

from __future__ import annotations

from collections.abc import Sequence

import manifold3d
import mapbox_earcut
import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MANY = 20_000
"""Polygons of more corners are cut by a quicker way."""


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
    if len(corners) <= MANY:
        return corners[np.asarray(manifold3d.triangulate([flat]), dtype=np.int64)]
    return corners[_quick(flat)]


def _quick(flat: Floats) -> Ints:
    """Return the triangles of a large plane polygon, its ears found by their place, in the order of a curve (Z-order).

    To look for ears among all corners takes time that grows with n^2: minutes for 100,000. A convex outline, on which
    the quick way is no quicker, is a fan; and where that way leaves out corners, as of an outline that crosses or
    touches itself, a fan is as good as any.
    """
    fan = np.arange(1, len(flat) - 1)
    fan = np.column_stack([np.zeros_like(fan), fan, fan + 1])
    if _convex(flat):
        return fan
    ends = np.array([len(flat)], dtype=np.uint32)
    found = mapbox_earcut.triangulate_float64(flat, ends).reshape(-1, 3).astype(np.int64)
    a, b, c = (flat[found[:, k]] for k in range(3))
    area = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    if area.sum() < 0.0:
        found = found[:, ::-1]
    if _fill(found, len(flat)):
        return found
    return fan


def _convex(flat: Floats) -> bool:
    """Return whether an outline turns right at no corner, and goes round once."""
    steps = np.roll(flat, -1, axis=0) - flat
    after = np.roll(steps, -1, axis=0)
    turns = steps[:, 0] * after[:, 1] - steps[:, 1] * after[:, 0]
    up = steps[:, 1] > 0.0
    return bool((turns >= 0.0).all()) and int((up != np.roll(up, 1)).sum()) == 2


def _fill(triangles: Ints, n: int) -> bool:
    """Return whether triangles fill an outline of n corners: its sides are theirs once, all others are shared."""
    if len(triangles) != n - 2:
        return False
    start, end = triangles.ravel(), np.roll(triangles, -1, axis=1).ravel()
    forth, back = np.sort(start * n + end), np.sort(end * n + start)
    sides = np.arange(n) * n + (np.arange(n) + 1) % n
    alone = np.setdiff1d(forth, back, assume_unique=True)
    return bool((np.diff(forth) > 0).all()) and np.array_equal(alone, np.sort(sides))
