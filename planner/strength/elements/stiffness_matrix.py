"""The stiffness matrix of quadratic tetrahedra, and the stresses of a displacement: textbook displacement method.

Zienkiewicz, Taylor and Zhu (The Finite Element Method, chapters on elasticity and on shape functions, from memory).
Edges are straight, so that four points of quadrature are exact.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy import sparse

from planner.strength.elements.stiffness import PAIRS
from planner.strength.elements.tetrahedra import EDGES, Tetrahedra

Floats = NDArray[np.float64]
INNER, OUTER = (5.0 - np.sqrt(5.0)) / 20.0, (5.0 + 3.0 * np.sqrt(5.0)) / 20.0
POINTS = np.full((4, 4), INNER) + np.diag([OUTER - INNER] * 4)
"""Barycentric coordinates of four points of equal weight, exact for squares (Hammer and Stroud 1956, from memory)."""
CHUNK_N = 4000
"""Tetrahedra at a time, so that memory stays small."""


def corner_gradients(cells: Tetrahedra) -> Floats:
    """Return the gradients of the four barycentric coordinates of each tetrahedron, (m, 4, 3)."""
    corners = cells.corners_mm
    inner = np.swapaxes(np.linalg.inv(corners[:, 1:] - corners[:, :1]), 1, 2)
    return np.concatenate([-inner.sum(axis=1, keepdims=True), inner], axis=1)


def strain_rows(gradients: Floats, points: Floats = POINTS) -> Floats:
    """Return what takes the 30 displacements of a tetrahedron to six strains at points, (m, points, 6, 30)."""
    nodes = np.empty((len(gradients), len(points), 10, 3))
    for q, at in enumerate(points):
        nodes[:, q, :4] = (4.0 * at[:, None] - 1.0) * gradients
        for k, (a, b) in enumerate(EDGES):
            nodes[:, q, 4 + k] = 4.0 * (at[a] * gradients[:, b] + at[b] * gradients[:, a])
    rows = np.zeros((len(gradients), len(points), 6, 10, 3))
    for row, (i, j) in enumerate(PAIRS):
        rows[:, :, row, :, i] += nodes[..., j]
        if i != j:
            rows[:, :, row, :, j] += nodes[..., i]
    return rows.reshape(len(gradients), len(points), 6, 30)


def assembled(cells: Tetrahedra, stiffness_mpa: Floats, zone_share: Floats) -> sparse.bsr_matrix:
    """Return the stiffness matrix in N/mm, in blocks of three; ``zone_share`` (m, 4) softens single points."""
    gradients, weights = corner_gradients(cells), cells.volumes_mm3[:, None] * zone_share / 4.0
    blocks = np.empty((len(cells.cells), 10, 10, 3, 3))
    for start in range(0, len(blocks), CHUNK_N):
        part = slice(start, start + CHUNK_N)
        rows = strain_rows(gradients[part]).reshape(-1, 24, 30)
        weighed = (np.kron(np.eye(4), stiffness_mpa) @ rows) * np.repeat(weights[part], 6, axis=1)[..., None]
        both = np.swapaxes(rows, 1, 2) @ weighed
        blocks[part] = both.reshape(-1, 10, 3, 10, 3).swapaxes(2, 3)
    n = len(cells.nodes_mm)
    place = (cells.cells[:, :, None] * n + cells.cells[:, None, :]).ravel()
    order = np.argsort(place, kind="stable")
    first = np.flatnonzero(np.diff(place[order], prepend=-1))
    data = np.add.reduceat(blocks.reshape(-1, 9)[order], first, axis=0).reshape(-1, 3, 3)
    spots = place[order][first]
    starts = np.searchsorted(spots // n, np.arange(n + 1))
    return sparse.bsr_matrix((data, spots % n, starts), shape=(3 * n, 3 * n))


def stresses_mpa(
    cells: Tetrahedra, stiffness_mpa: Floats, zone_share: Floats, shift_mm: Floats, points: Floats = POINTS
) -> Floats:
    """Return six stresses at points of every tetrahedron, (m, points, 6); ``zone_share`` (m, points)."""
    found = np.empty((len(cells.cells), len(points), 6))
    gradients = corner_gradients(cells)
    for start in range(0, len(found), CHUNK_N):
        part = slice(start, start + CHUNK_N)
        moved = shift_mm[cells.cells[part]].reshape(-1, 1, 30, 1)
        found[part] = (strain_rows(gradients[part], points) @ moved)[..., 0] @ stiffness_mpa.T
    return np.asarray(found * zone_share[:, :, None])
