"""Winding: neighbours agree on which side is out, and tiny holes close."""

from __future__ import annotations

import numpy as np
import trimesh
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from planner.mesh.repair.edges import neighbours, open_edges, some_doubled

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

HOLE_SHARE = 0.01
"""A hole is tiny, and its cover no guess, while its area stays within the square of 1 % of the part's size."""


def wound(faces: Ints, told: list[str]) -> Ints:
    """Turn faces so that neighbours agree, where some do not; the fewer of each connected piece are turned.

    Each face is two nodes, as it is and turned; neighbours that agree join like with like, others cross over.
    What is joined to the one is then kept, what is joined to the other is turned.
    """
    if not some_doubled(faces):
        return faces
    pairs, agree = neighbours(faces)
    m = len(faces)
    i, j = pairs[:, 0], pairs[:, 1]
    other = np.where(agree, j, j + m)
    rows, columns = np.concatenate([i, i + m]), np.concatenate([other, np.where(agree, j + m, j)])
    label = connected_components(
        coo_matrix((np.ones(len(rows)), (rows, columns)), shape=(2 * m, 2 * m)), directed=False
    )[1]
    as_is, turned = label[:m], label[m:]
    piece = np.minimum(as_is, turned)
    twisted = as_is == turned  # one-sided, like a Moebius strip: nothing would agree
    flip = (as_is != piece) & ~twisted
    share = np.bincount(piece, weights=flip) / np.maximum(np.bincount(piece), 1)
    flip ^= (share[piece] > 0.5) & ~twisted
    if not flip.any():
        return faces
    told.append(f"{int(flip.sum())} triangles turned over")
    return np.where(flip[:, None], faces[:, ::-1], faces)


def closed_holes(vertices: Floats, faces: Ints, told: list[str]) -> tuple[Floats, Ints]:
    """Close holes of three or four edges that are tiny, where that closes the surface."""
    gaps = open_edges(faces)
    if not 3 <= len(gaps) <= len(faces) / 20:  # larger damage is not guessed at
        return vertices, faces
    if _largest_mm2(vertices, gaps) > (HOLE_SHARE * float(np.ptp(vertices, axis=0).max())) ** 2:
        return vertices, faces
    mesh = trimesh.Trimesh(vertices, faces, process=False)
    trimesh.repair.fill_holes(mesh)
    closed = np.asarray(mesh.faces, dtype=np.int64)
    if len(closed) > len(faces) and not len(open_edges(closed)):
        told.append(f"tiny holes closed with {len(closed) - len(faces)} triangles")
        return np.asarray(mesh.vertices, dtype=np.float64), closed
    return vertices, faces


def _largest_mm2(vertices: Floats, gaps: Ints) -> float:
    """Return the area of the largest hole: half the length of the sum of its edges' cross products (vector area)."""
    n = len(vertices)
    label = connected_components(coo_matrix((np.ones(len(gaps)), gaps.T), shape=(n, n)), directed=False)[1]
    hole = np.unique(label[gaps[:, 0]], return_inverse=True)[1]
    near = vertices - vertices[gaps[0, 0]]
    cross = np.cross(near[gaps[:, 0]], near[gaps[:, 1]]) / 2.0
    total = np.stack([np.bincount(hole, weights=cross[:, k]) for k in range(3)], axis=1)
    return float(np.linalg.norm(total, axis=1).max())
