"""A solid's surface in smooth pieces: across every edge inside one, it bends as padding can follow."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from planner.mesh import Solid
from planner.pattern.patch import Floats, Ints

FLAT_DEG = 0.5
"""Triangles that bend less on each other are one facet."""
SHARP_DEG = 30.0
"""An edge that bends more ends a piece; common practice of meshes, no source."""
ROUND_MM = 4.0
"""So does a bend on a smaller radius: a rounded lip is an edge to padding; common practice, no source."""

SURE_DEG = 5.0
"""Smaller bends are steps of a curve or as good as none."""
ALIKE = 2.0
"""A curve's steps bend on one facet alike within this factor; common practice of meshes, no source."""


@dataclass(frozen=True, kw_only=True, eq=False)  # arrays do not compare
class SmoothGroup:
    """One smooth piece.

    Parameters
    ----------
    faces : (k,) int
        Indices of its triangles in the solid.
    area_mm2
        Its area.
    toward : (3,) float
        Sum of area times normal, in mm²: where it looks, and how much.
    hollow_ratio
        Share of its bending that is hollow: 1 for the inside of a shell, 0 for its outside; 0 where it does not bend.
    bend_deg
        How far it bends in all: the largest angle between its mean normal and any other.
    """

    faces: Ints
    area_mm2: float
    toward: Floats
    hollow_ratio: float
    bend_deg: float


def smooth_groups(solid: Solid) -> tuple[SmoothGroup, ...]:
    """Return the smooth pieces of a solid's surface, largest first."""
    mesh = solid.trimesh
    pairs = np.asarray(mesh.face_adjacency, dtype=np.int64)
    bends = np.asarray(mesh.face_adjacency_angles, dtype=float)
    ends = solid.vertices_mm[np.asarray(mesh.face_adjacency_edges)]
    long = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1)
    areas = np.asarray(mesh.area_faces, dtype=float)
    n = len(areas)
    facet = _joined(n, pairs[bends < math.radians(FLAT_DEG)])
    wide = _width_mm(facet, areas, pairs, long)
    radius = wide / np.maximum(bends, 1e-9)
    hollow = ~np.asarray(mesh.face_adjacency_convex, dtype=bool)
    level = bends < math.radians(FLAT_DEG)
    bent = ~level & (bends < math.radians(SHARP_DEG)) & (radius >= ROUND_MM)
    bent[bent] = _goes_on(facet[pairs[bent]], bends[bent], hollow[bent])
    smooth = level | bent
    group = _joined(n, pairs[smooth])
    turn = np.where(smooth, bends * long, 0.0)
    turns = [np.bincount(group[pairs[:, 0]], weights=turn * which, minlength=n) for which in (hollow, True)]
    found = []
    order = np.argsort(group, kind="stable")
    indices, firsts = np.unique(group[order], return_index=True)
    for index, faces in zip(indices, np.split(order, firsts[1:]), strict=True):
        toward = areas[faces] @ np.asarray(mesh.face_normals)[faces]
        whole = float(turns[1][index])
        found.append(
            SmoothGroup(
                faces=faces,
                area_mm2=float(areas[faces].sum()),
                toward=toward,
                hollow_ratio=float(turns[0][index]) / whole if whole > 0.0 else 0.0,
                bend_deg=_bend_deg(np.asarray(mesh.face_normals)[faces], toward),
            )
        )
    return tuple(sorted(found, key=lambda one: -one.area_mm2))


def _joined(n: int, pairs: Ints) -> Ints:
    """Return which of the pieces that pairs of triangles make each triangle belongs to."""
    graph = coo_matrix((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), (n, n))
    labels: Ints = connected_components(graph, directed=False)[1].astype(np.int64)
    return labels


def _goes_on(facets: Ints, bends: Floats, hollow: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Return which bends belong to a curve that goes on: the rim of a shallow bowl bends little, but the other way.

    A facet speaks against a bend where it has others, but none the same way that is as large, to ``ALIKE`` or twice it.
    Small bends are never spoken against.
    """
    if not len(bends):
        return np.zeros(0, dtype=bool)
    step = np.floor(np.log(np.maximum(bends, 1e-6)) / math.log(ALIKE)).astype(np.int64)
    kind = 2 * (step - step.min() + 1) + hollow
    steps_n = int(step.max() - step.min()) + 1
    ends = np.concatenate([facets[:, 0], facets[:, 1]])
    size = (int(facets.max()) + 1, int(kind.max()) + 2 * steps_n + 2)
    # A line between two facets may be many edges: it counts once, at the facet that it ends.
    rows = np.unique(np.column_stack([ends, np.tile(kind, 2), np.concatenate([facets[:, 1], facets[:, 0]])]), axis=0)
    count = coo_matrix((np.ones(len(rows)), (rows[:, 0], rows[:, 1])), size).tocsr()
    every = np.asarray(count.sum(axis=1)).ravel()
    against = np.zeros(len(bends), dtype=bool)
    for end in (0, 1):
        at = facets[:, end]
        alike = sum(np.asarray(count[at, kind + 2 * near]).ravel() for near in range(-1, steps_n))
        against |= (every[at] > 1) & (alike < 2)
    return ~against | (bends < math.radians(SURE_DEG))


def _width_mm(facet: Ints, areas: Floats, pairs: Ints, long: Floats) -> Floats:
    """Return, for every pair of triangles, how wide the narrower facet is beside the line on which both facets meet.

    A facet's width is its area over that line's length: right for a strip, half the height of a lone triangle.
    """
    size = np.bincount(facet, weights=areas)
    low, high = np.minimum(facet[pairs[:, 0]], facet[pairs[:, 1]]), np.maximum(facet[pairs[:, 0]], facet[pairs[:, 1]])
    _, line = np.unique(low * (facet.max() + 1) + high, return_inverse=True)
    meets = np.bincount(line, weights=long)[line]
    width: Floats = np.minimum(size[low], size[high]) / np.maximum(meets, 1e-9)
    return width


def _bend_deg(normals: Floats, toward: Floats) -> float:
    """Return the largest angle between normals and the direction that all of them look to in the mean."""
    long = float(np.linalg.norm(toward))
    if long <= 0.0:
        return 180.0
    return math.degrees(math.acos(float(np.clip((normals @ (toward / long)).min(), -1.0, 1.0))))
