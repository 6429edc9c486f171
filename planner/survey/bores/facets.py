"""Planar facets of a mesh, and the bends between them: the raw material of bores."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from planner.mesh import Solid
from planner.survey.rays import face_normals

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

FLAT_RAD = np.radians(0.3)
"""Triangles within 0.3 degrees of each other are one facet; a 256-sided bore bends 1.4 degrees a facet."""
BEND_RAD = np.radians(62.0)
"""A bend up to this belongs to a round surface; a hexagon's is 60 degrees."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bends:
    """Concave bends between two facets: ``facets`` (k, 2), unit ``direction`` and ``middle_mm`` (k, 3) of the edge."""

    facets: Ints
    direction: Floats
    length_mm: Floats
    middle_mm: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Facets:
    """``of_face`` (m,) names each triangle's facet; ``bends`` the concave bends between facets."""

    of_face: Ints
    n: int
    normals: Floats
    """Of every triangle, (m, 3)."""
    bends: Bends
    pairs: Ints
    """Neighbouring triangles, (p, 2), with their shared ``edges`` (p, 2) and ``angle_rad`` (p,)."""
    edges: Ints
    angle_rad: Floats


def facets_of(solid: Solid) -> Facets:
    """Merge coplanar neighbours to facets and find the concave bends between facets."""
    normals = face_normals(solid)
    mesh = solid.trimesh
    pairs = np.asarray(mesh.face_adjacency, dtype=np.int64).reshape(-1, 2)
    edges = np.asarray(mesh.face_adjacency_edges, dtype=np.int64).reshape(-1, 2)
    bent = np.clip(np.einsum("ij,ij->i", normals[pairs[:, 0]], normals[pairs[:, 1]]), -1.0, 1.0)
    angle = np.arccos(bent)
    bare = (normals[pairs] == 0.0).all(axis=2).any(axis=1)  # a triangle without area joins its neighbours
    flat = (angle < FLAT_RAD) | bare
    of_face = pieces(pairs[flat], len(solid.faces))
    round_ = ~flat & (angle < BEND_RAD)
    return Facets(
        pairs=pairs,
        edges=edges,
        angle_rad=angle,
        of_face=of_face,
        n=int(of_face.max()) + 1,
        normals=normals,
        bends=_concave(solid, normals, of_face, pairs[round_], edges[round_]),
    )


def pieces(links: Ints, n: int) -> Ints:
    """Return the number of the connected piece that each of n things belongs to, by links (k, 2) between them."""
    graph = coo_matrix((np.ones(len(links)), (links[:, 0], links[:, 1])), shape=(n, n))
    piece: Ints = connected_components(graph, directed=False)[1].astype(np.int64)
    return piece


def members(piece: Ints) -> list[Ints]:
    """Return what belongs to each piece, the lowest number first."""
    order = np.argsort(piece, kind="stable")
    return np.split(order, np.flatnonzero(np.diff(piece[order])) + 1)


def _concave(solid: Solid, normals: Floats, of_face: Ints, pairs: Ints, edges: Ints) -> Bends:
    """Return the concave ones among some neighbour pairs, one bend for each pair of facets."""
    start, end = solid.vertices_mm[edges[:, 0]], solid.vertices_mm[edges[:, 1]]
    # Concave: the neighbour's far corner lies on the outer side of this face's plane.
    opposite = solid.corners_mm[pairs[:, 1]].sum(axis=1) - start - end
    concave = np.einsum("ij,ij->i", opposite - start, normals[pairs[:, 0]]) > 0.0
    pairs, along = np.sort(of_face[pairs[concave]], axis=1), (end - start)[concave]
    if not len(pairs):
        none = np.empty((0, 3))
        return Bends(facets=np.empty((0, 2), np.int64), direction=none, length_mm=np.empty(0), middle_mm=none)
    both, first, group = np.unique(pairs, axis=0, return_index=True, return_inverse=True)
    group = group.reshape(-1)
    sign = np.sign(np.einsum("ij,ij->i", along, along[first][group]))
    total = np.stack([np.bincount(group, weights=along[:, k] * sign) for k in range(3)], axis=1)
    length = np.linalg.norm(total, axis=1)
    good = length > 1e-9
    middle = ((start + end) / 2)[concave][first]
    return Bends(
        facets=both[good],
        direction=total[good] / length[good, None],
        length_mm=length[good],
        middle_mm=middle[good],
    )
