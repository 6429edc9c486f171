"""A solid's surface in smooth pieces: across every edge inside one, it bends as padding can follow."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
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
    smooth = (bends < math.radians(FLAT_DEG)) | ((bends < math.radians(SHARP_DEG)) & (radius >= ROUND_MM))
    group = _joined(n, pairs[smooth])
    hollow = ~np.asarray(mesh.face_adjacency_convex, dtype=bool)
    turn = np.where(smooth, bends * long, 0.0)
    turns = [np.bincount(group[pairs[:, 0]], weights=turn * which, minlength=n) for which in (hollow, True)]
    found = []
    for index in np.unique(group):
        faces = np.flatnonzero(group == index)
        toward = areas[faces] @ np.asarray(mesh.face_normals)[faces]
        bent = float(turns[1][index])
        found.append(
            SmoothGroup(
                faces=faces,
                area_mm2=float(areas[faces].sum()),
                toward=toward,
                hollow_ratio=float(turns[0][index]) / bent if bent > 0.0 else 0.0,
                bend_deg=_bend_deg(np.asarray(mesh.face_normals)[faces], toward),
            )
        )
    return tuple(sorted(found, key=lambda one: -one.area_mm2))


def _joined(n: int, pairs: Ints) -> Ints:
    """Return which of the pieces that pairs of triangles make each triangle belongs to."""
    graph = coo_matrix((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), (n, n))
    labels: Ints = connected_components(graph, directed=False)[1].astype(np.int64)
    return labels


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
