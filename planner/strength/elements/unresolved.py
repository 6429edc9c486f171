"""Where a mesh may hide a greater share than it shows: places that only shorter edges can settle.

Stress at a sharp inner corner grows without end as one over a power of the distance. Edges longer than what stress is
averaged over show less than the average there, by that power of how much too long they are (Williams 1952, "Stress
singularities resulting from various boundary conditions in angular corners of plates in extension", Journal of Applied
Mechanics 19, from memory; for a solid alike in all directions, the layers' softness across is left out).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.strength.elements.pressed import surface_of
from planner.strength.elements.tetrahedra import EDGES, Tetrahedra

Floats = NDArray[np.float64]
TURNS_DEG = (0.0, 30.0, 45.0, 90.0, 180.0)
"""How far a surface turns inward at an edge: 90 at a square inner corner, 180 at a crack."""
POWERS = (0.0, 0.248, 0.326, 0.4555, 0.5)
"""Powers of the distance: 1 - p, where sin(p (180° + turn)) = -p sin(180° + turn) for the least p (Williams 1952)."""
CORNER_SHARE, SMOOTH_SHARE = 0.5, 2.0
"""Edges short enough, as shares of a line's width: at an inner corner, and elsewhere. With half a line a sharp corner
seemed to stand at 53 %, where a finer mesh gave 78 %."""
SMOOTH_POWER = 0.1
"""How fast a share may grow away from inner corners, where edges are too long; no source."""


def edge_mm(cells: Tetrahedra) -> Floats:
    """Return the edge of every tetrahedron, the mean of its six, (m,)."""
    corners = cells.corners_mm
    lengths = [np.linalg.norm(corners[:, a] - corners[:, b], axis=1) for a, b in EDGES]
    return np.asarray(np.mean(lengths, axis=0))


def inward_deg(cells: Tetrahedra) -> Floats:
    """Return how far the surface turns inward at every node's sharpest inner edge, (n,); 0 where there is none."""
    sides = surface_of(cells)[:, :3]
    corners = cells.nodes_mm[sides]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals /= np.linalg.norm(normals, axis=1, keepdims=True)
    ends = np.sort(sides[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    side, beyond = np.repeat(np.arange(len(sides)), 3), sides[:, [2, 0, 1]].ravel()
    order = np.lexsort((ends[:, 1], ends[:, 0]))
    twin = np.flatnonzero((ends[order][1:] == ends[order][:-1]).all(axis=1))
    one, other = order[twin], order[twin + 1]
    above = ((cells.nodes_mm[beyond[other]] - cells.nodes_mm[ends[one, 0]]) * normals[side[one]]).sum(axis=1)
    turn = np.degrees(np.arccos(np.clip((normals[side[one]] * normals[side[other]]).sum(axis=1), -1.0, 1.0)))
    found = np.zeros(len(cells.nodes_mm))
    for column in (0, 1):
        np.maximum.at(found, ends[one, column], np.where(above > 0.0, turn, 0.0))
    return found


def growth(cells: Tetrahedra, line_width_mm: float) -> Floats:
    """Return how many times its share each tetrahedron may hide, (m,): once where its edges are short enough."""
    edges = edge_mm(cells) / line_width_mm
    power = np.interp(inward_deg(cells)[cells.cells[:, :4]].max(axis=1), TURNS_DEG, POWERS)
    corner = np.maximum(edges / CORNER_SHARE, 1.0) ** power
    return np.asarray(np.maximum(corner, np.maximum(edges / SMOOTH_SHARE, 1.0) ** SMOOTH_POWER))
