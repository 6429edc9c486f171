"""Seams: vertices that are one point become one vertex, and triangles that are none go."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from planner.mesh.repair.edges import open_edges

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SEAMS = (2e-6, 2e-5, 1e-4)
"""Vertices nearer than this share of the size are one, the smallest that closes the surface: a single-precision
file keeps about 6e-8 of a coordinate, a text file often four or five digits."""


def merged_equal(vertices: Floats, faces: Ints) -> tuple[Floats, Ints]:
    """Merge vertices that are equal."""
    key = vertices + 0.0  # -0.0 is 0.0
    order = np.lexsort((key[:, 2], key[:, 1], key[:, 0]))
    new = np.ones(len(order), dtype=bool)
    new[1:] = (key[order[1:]] != key[order[:-1]]).any(axis=1)
    index = np.empty(len(order), dtype=np.int64)
    index[order] = np.cumsum(new) - 1
    return vertices[order[new]], index[faces]


def merged_seams(vertices: Floats, faces: Ints, told: list[str]) -> tuple[Floats, Ints]:
    """Merge open edges' vertices at the smallest tolerance that closes the surface; at the smallest where none does."""
    size, before = float(np.ptp(vertices, axis=0).max()), len(open_edges(faces))
    if size == 0.0:
        return vertices, faces
    rim = np.unique(open_edges(faces))
    tried = [_merged_near(vertices, faces, rim, share * size) for share in SEAMS]
    closed = [mesh for mesh in tried if not len(open_edges(whole(mesh)))]
    best = closed[0] if closed else tried[0]
    if len(open_edges(whole(best))) < before:
        told.append("seams merged")
        return vertices, best
    return vertices, faces


def _merged_near(vertices: Floats, faces: Ints, rim: Ints, tolerance_mm: float) -> Ints:
    """Return the faces with vertices of the rim that lie within a tolerance of each other as one."""
    near = cKDTree(vertices[rim]).query_pairs(tolerance_mm, output_type="ndarray")
    n = len(rim)
    label = connected_components(coo_matrix((np.ones(len(near)), near.T), shape=(n, n)), directed=False)[1]
    first = np.full(int(label.max()) + 1, n, dtype=np.int64)
    np.minimum.at(first, label, np.arange(n))
    index = np.arange(len(vertices))
    index[rim] = rim[first[label]]
    merged: Ints = index[faces]
    return merged


def whole(faces: Ints) -> Ints:
    """Return the triangles that have three different corners."""
    different = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    kept: Ints = faces[different]
    return kept


def dropped(faces: Ints, told: list[str]) -> Ints:
    """Drop triangles with a repeated corner, and all but one of those that stand several times."""
    flat = whole(faces)
    turned = np.take_along_axis(flat, (np.argmin(flat, axis=1)[:, None] + np.arange(3)) % 3, axis=1)
    order = np.lexsort((turned[:, 2], turned[:, 1], turned[:, 0]))
    new = np.ones(len(order), dtype=bool)
    new[1:] = (turned[order[1:]] != turned[order[:-1]]).any(axis=1)
    first = np.sort(order[new])
    if len(first) < len(flat):
        told.append(f"{len(flat) - len(first)} doubled triangles dropped")
    if len(flat) < len(faces):
        told.append(f"{len(faces) - len(flat)} triangles without area dropped")
    kept: Ints = flat[first]
    return kept
