"""Planar facets of a mesh, and which triangles meet where and at what bend: the raw material of bores."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components, minimum_spanning_tree

from planner.mesh import Solid
from planner.survey.rays import face_areas, face_normals

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

FLAT_RAD = np.radians(0.3)
"""Triangles within 0.3 degrees of each other are one facet; a 256-sided bore bends 1.4 degrees a facet."""
BEND_RAD = np.radians(62.0)
"""A bend up to this belongs to a round surface; a hexagon's is 60 degrees."""
FEW = 1.0 / 16.0
"""Share of all numbers below which a few of them are sorted."""
THIN_SHARE = 2.4e-6
"""Of the largest coordinate: 40 times the rounding of single precision, which turns a triangle so thin by 3 degrees."""


@dataclass(frozen=True, kw_only=True, eq=False)  # arrays do not compare
class Facets:
    """``of_face`` (m,) names each triangle's facet, ``normals`` (m, 3) and ``areas_mm2`` (m,) are the triangles'.

    ``pairs`` (p, 2) are neighbouring triangles, with their shared ``edges`` (p, 2), ``angle_rad`` (p,) between
    them, and ``concave`` (p,) where the void lies in the bend.
    """

    of_face: Ints
    n: int
    normals: Floats
    areas_mm2: Floats
    thin: NDArray[np.bool_]
    """Triangles without a direction of their own, (m,)."""
    pairs: Ints
    edges: Ints
    angle_rad: Floats
    concave: NDArray[np.bool_]

    @cached_property
    def pairs_of(self) -> Ints:
        """Which pairs each triangle is in, (m, 3), -1 where there are fewer."""
        return table_of(self.pairs, len(self.normals))


def table_of(pairs: Ints, faces_n: int) -> Ints:
    """Return which of some pairs (p, 2) of triangles each triangle is in, (m, 3), -1 where there are fewer."""
    face = pairs.ravel()
    order = np.argsort(face, kind="stable")
    place = np.arange(len(face)) - np.searchsorted(face[order], face[order])
    table = np.full((faces_n, 3), -1, dtype=np.int64)
    few = place < 3
    table[face[order][few], place[few]] = order[few] // 2
    return table


def facets_of(solid: Solid) -> Facets:
    """Merge coplanar neighbours to facets, and tell concave bends from convex ones."""
    normals = face_normals(solid)
    mesh = solid.trimesh
    pairs = np.asarray(mesh.face_adjacency, dtype=np.int64).reshape(-1, 2)
    edges = np.asarray(mesh.face_adjacency_edges, dtype=np.int64).reshape(-1, 2)
    thin = _thin(solid)
    leaders = _leaders(solid, thin, pairs, edges)
    one, other = normals[leaders[pairs]].transpose(1, 0, 2)
    angle = np.arccos(np.clip(np.einsum("ij,ij->i", one, other), -1.0, 1.0))
    of_face = pieces(pairs[angle < FLAT_RAD], len(solid.faces))
    # Concave: the neighbour's far corner lies on the outer side of this face's plane.
    far = solid.faces[pairs[:, 1]].sum(axis=1) - edges.sum(axis=1)
    rise = np.einsum("ij,ij->i", solid.vertices_mm[far] - solid.vertices_mm[edges[:, 0]], one)
    # Next to a thin triangle that corner is in no certain place: the two directions tell, seen along the edge.
    lent = thin[pairs].any(axis=1)
    rise[lent] = -np.einsum("ij,ij->i", np.cross(one[lent], other[lent]), _along(solid, pairs[lent, 0], edges[lent]))
    return Facets(
        pairs=pairs,
        edges=edges,
        angle_rad=angle,
        concave=rise > 0.0,
        of_face=of_face,
        n=int(of_face.max()) + 1,
        normals=normals,
        areas_mm2=face_areas(solid),
        thin=thin,
    )


def _thin(solid: Solid) -> NDArray[np.bool_]:
    """Return which triangles are so thin that rounding to single precision alone may turn them by degrees."""
    corners = solid.corners_mm
    longest = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).max(axis=1)
    thin: NDArray[np.bool_] = 2.0 * face_areas(solid) <= THIN_SHARE * float(np.abs(solid.vertices_mm).max()) * longest
    return thin


def _leaders(solid: Solid, thin: NDArray[np.bool_], pairs: Ints, edges: Ints) -> Ints:
    """Return the triangle whose direction each triangle has: its own, or that of a neighbour where it is thin.

    A thin triangle lies on its long edges, wherever its normal points: it belongs to the neighbour across the
    longest of them, past other thin ones where need be. Were it to join all its neighbours, a needle of a flat
    face that ends in a bore's mouth would make face and bore one region, and the bore would not be seen.
    """
    n = len(thin)
    leaders = np.arange(n)
    near = thin[pairs].any(axis=1)
    if not near.any():
        return leaders
    length = np.linalg.norm(np.diff(solid.vertices_mm[edges[near]], axis=1)[:, 0], axis=1)
    firm = np.flatnonzero(~thin)
    # Longest edges first. A root above all firm triangles keeps any two of them out of one tree.
    cost = np.concatenate([np.full(len(firm), 1.0), 2.0 + length.max() - length])
    start, end = np.concatenate([np.full(len(firm), n), pairs[near, 0]]), np.concatenate([firm, pairs[near, 1]])
    tree = minimum_spanning_tree(coo_matrix((cost, (start, end)), shape=(n + 1, n + 1))).tocoo()
    kept = (tree.row < n) & (tree.col < n)
    label = pieces(np.column_stack([tree.row[kept], tree.col[kept]]), n)
    leader_of = np.full(int(label.max()) + 1, -1, dtype=np.int64)
    leader_of[label[firm]] = firm
    found: Ints = np.where(leader_of[label] < 0, leaders, leader_of[label])  # no firm one is near: it stays alone
    return found


def _along(solid: Solid, faces: Ints, edges: Ints) -> Floats:
    """Return the edges (p, 3) in the direction in which their triangles go round them."""
    corners = solid.faces[faces]
    place = (corners == edges[:, :1]).argmax(axis=1)
    onward = corners[np.arange(len(faces)), (place + 1) % 3] == edges[:, 1]
    way = solid.vertices_mm[edges[:, 1]] - solid.vertices_mm[edges[:, 0]]
    along: Floats = np.where(onward[:, None], way, -way)
    return along


def pieces(links: Ints, n: int) -> Ints:
    """Return the number of the connected piece that each of n things belongs to, by links (k, 2) between them."""
    graph = coo_matrix((np.ones(len(links)), (links[:, 0], links[:, 1])), shape=(n, n))
    piece: Ints = connected_components(graph, directed=False)[1].astype(np.int64)
    return piece


def members(piece: Ints) -> list[Ints]:
    """Return what belongs to each piece, the lowest number first."""
    order = np.argsort(piece, kind="stable")
    return np.split(order, np.flatnonzero(np.diff(piece[order])) + 1)


def distinct(numbers: Ints, below: int) -> Ints:
    """Return the different numbers among some from 0 to before a limit, sorted; those below 0 are left out.

    Of many, marking is several times as fast as sorting; of few, a mark for every possible one would cost more.
    """
    if numbers.size < below * FEW:
        found: Ints = np.unique(numbers)
        return found[found >= 0]
    mark = np.zeros(below + 1, dtype=bool)
    mark[np.maximum(numbers, -1)] = True  # -1 marks the last, which is no number
    return np.flatnonzero(mark[:below])
