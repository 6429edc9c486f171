"""Where a mesh may hide a greater share than it shows: places that only shorter edges can settle.

Stress at a sharp inner corner grows without end as one over a power of the distance. Edges longer than what stress is
averaged over show less than the average there, by that power of how much too long they are (Williams 1952, "Stress
singularities resulting from various boundary conditions in angular corners of plates in extension", Journal of Applied
Mechanics 19, from memory; for a solid alike in all directions, the layers' softness across is left out).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.strength.elements.nodal_forces import surface_of
from planner.strength.elements.tetrahedra import EDGES, Tetrahedra

Floats = NDArray[np.float64]
TURNS_DEG = (0.0, 30.0, 45.0, 90.0, 180.0)
"""How far a surface turns inward at an edge: 90 at a square inner corner, 180 at a crack."""
POWERS = (0.0, 0.248, 0.326, 0.4555, 0.5)
"""Powers of the distance: 1 - p, where sin(p (180° + turn)) = -p sin(180° + turn) for the least p (Williams 1952)."""
CORNER_SHARE, SMOOTH_SHARE = 0.5, 2.0
"""Edges short enough, as shares of a line's width: at an inner corner, and elsewhere. A quarter and a third were tried
before a half, on the slotted, notched and stepped small parts, which did not settle in time then; on notched bars with
edges of two thirds of a line a corner shows up to 15 % too much, and with a fifth it stands within 2 %."""
STANDS_PERCENT = 5.0
"""The averaged share stands when a finer mesh changes it by no more (the contract of the screening)."""
FINER, FINEST_SHARE = 4.0, 0.2
"""Where a mesh may hide more than it shows, edges shrink so many times from mesh to mesh, down to this share of a
line's width: shorter than an inner corner needs, so that the last change tells something."""
CHOSEN_SHARE = 0.9
"""Places are made finer that may hide this share of the greatest: edges that are too long also show too much."""
APART_EDGES = 2.0
"""Places that are made finer lie so many of their new edges apart: between them edges grow by a third."""
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Hidden:
    """Where the next mesh must be finer.

    Parameters
    ----------
    places
        Places and the edges wanted there, those that may hide the greatest share first.
    most_percent
        The greatest share that a place may have, hidden by edges that are too long.
    fine
        Whether edges at the weakest place are short enough for an average over a line's width.
    """

    places: list[tuple[Vec3, float]]
    most_percent: float
    fine: bool


def hidden_in(cells: Tetrahedra, at_mm: Floats, averaged: Floats, line_width_mm: float) -> Hidden:
    """Return where a mesh may hide a greater share than its greatest, and where that one lies."""
    weakest, least_mm = int(np.argmax(averaged)), FINEST_SHARE * line_width_mm
    grows, edges = np.repeat(growth(cells, line_width_mm), 4), np.repeat(edge_mm(cells), 4)
    stands = 1.0 + STANDS_PERCENT / 100.0
    may_be = grows * averaged
    near = (averaged > averaged[weakest] / stands) & (np.linalg.norm(at_mm - at_mm[weakest], axis=1) <= line_width_mm)
    chosen = np.flatnonzero(((may_be > CHOSEN_SHARE * averaged[weakest]) & (grows > stands)) | near)
    chosen = chosen[edges[chosen] > stands * least_mm]
    chosen = chosen[np.argsort(-may_be[chosen], kind="stable")]
    wanted_mm = np.maximum(edges[chosen] / FINER, least_mm)
    # One place of each cell of a grid: those with the same edge lie some edges apart.
    level = np.round(np.log(wanted_mm / least_mm) / np.log(FINER)).astype(int)
    wanted_mm = least_mm * FINER**level
    grid = np.column_stack([level, np.floor(at_mm[chosen] / (APART_EDGES * wanted_mm)[:, None])]).astype(int)
    first = np.sort(np.unique(grid, axis=0, return_index=True)[1]) if len(grid) else np.empty(0, int)
    places = [((float(x), float(y), float(z)), float(wanted_mm[k])) for k in first for x, y, z in [at_mm[chosen[k]]]]
    return Hidden(places=places, most_percent=float(may_be.max()), fine=bool(grows[weakest] <= stands))
