"""A solid made ready for measuring its walls: normals, edges with their bends, and the tree of its triangles."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.facets import table_of
from planner.survey.rays import face_areas, face_normals, first_hits
from planner.survey.walls.triangle_tree import Tree, reaching, tree_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

REACH_MM, REACH_SHARE = 5.0, 0.2
"""Balls are made to touch up to this thickness; beyond it a wall is measured between planes only."""
BEND_RAD = float(np.radians(10.0))
"""Edges that bend less are seen from their faces; a corner's faces spread more than this round their mean."""
MILD_RAD = float(np.radians(1.0))
STRAIGHT_RAD = float(np.radians(1.0))
SMOOTH_RAD = float(np.radians(40.0))
"""A line of edges that turns more at a vertex has a corner there."""
FEW = 2
"""Edges that meet at a vertex inside a line of them."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Shape:
    """A solid with its ``normals`` (m, 3) and ``areas_mm2`` (m,)."""

    solid: Solid
    normals: Floats
    areas_mm2: Floats

    @cached_property
    def tree(self) -> Tree:
        """The triangles, for the nearest point."""
        return tree_of(self.solid.corners_mm, self.normals, self.straight_cos, self.chain[self.solid.faces])

    @cached_property
    def straight_cos(self) -> Floats:
        """How straight each triangle's corners (3) and sides (3) must lie ahead to be nearest: cosines, (m, 6).

        What is nearest lies within the normals of all faces about it: straight ahead on a face or an outer edge, as
        far off as the edge bends on one that points inwards.
        """
        edges, faces = self.edges, self.solid.faces
        bend = np.maximum(edges.bend_rad, 0.0)
        off = np.zeros((len(faces), 6))
        for side in range(2):
            own = edges.faces[:, side]
            other = ~(faces[own][:, :, None] == edges.ends[:, None, :]).any(axis=2)
            off[own, 3 + (np.argmax(other, axis=1) + 1) % 3] = bend
        corner = np.zeros(len(self.solid.vertices_mm))
        for k in range(2):
            np.maximum.at(corner, edges.ends[:, k], bend)
        pure = self._all_inner
        corner[pure] = np.maximum(corner, 2.0 * self.spread_rad)[pure]
        off[:, :3] = corner[faces]
        cos: Floats = np.cos(np.minimum(off + STRAIGHT_RAD, np.pi))
        return cos

    @cached_property
    def chain(self) -> Floats:
        """The way along a line of inner edges at each of its inner vertices, (n, 3), as long as it decides.

        Where a way leans along the line so that its product with this is more than 1, a neighbour on it is nearer.
        """
        inner = self.edges.ends[self.edges.bend_rad > BEND_RAD]
        way = self.solid.vertices_mm[inner[:, 1]] - self.solid.vertices_mm[inner[:, 0]]
        way /= np.maximum(np.linalg.norm(way, axis=1, keepdims=True), 1e-12)
        vertex, from_vertex = inner.T.reshape(-1), np.concatenate([way, -way])
        order = np.argsort(vertex, kind="stable")
        own, first, count = np.unique(vertex[order], return_index=True, return_counts=True)
        own, first = own[count == FEW], first[count == FEW]
        one, other = from_vertex[order[first]], from_vertex[order[first + 1]]
        turn = np.arccos(np.clip(-np.einsum("ij,ij->i", one, other), -1.0, 1.0))
        tangent = (one - other) / np.maximum(np.linalg.norm(one - other, axis=1, keepdims=True), 1e-12)
        decides = np.where(turn < SMOOTH_RAD, 1.0 / np.sin(turn / 2.0 + STRAIGHT_RAD), 0.0)
        found = np.zeros((len(self.solid.vertices_mm), 3))
        found[own] = tangent * decides[:, None]
        return found

    @cached_property
    def spread_rad(self) -> Floats:
        """The largest angle between a face at each vertex and the mean of all of them, (n,)."""
        faces = self.solid.faces
        mean = np.zeros((len(self.solid.vertices_mm), 3))
        for k in range(3):
            np.add.at(mean, faces[:, k], self.normals)
        mean /= np.maximum(np.linalg.norm(mean, axis=1, keepdims=True), 1e-12)
        lean = np.ones(len(mean))
        for k in range(3):
            np.minimum.at(lean, faces[:, k], np.einsum("ij,ij->i", mean[faces[:, k]], self.normals))
        spread: Floats = np.arccos(np.clip(lean, -1.0, 1.0))
        return spread

    @cached_property
    def _all_inner(self) -> NDArray[np.bool_]:
        """Vertices that stand out into the matter: some edge there points inwards, and none outwards, (n,)."""
        edges = self.edges
        inner, outer = (np.zeros(len(self.solid.vertices_mm), dtype=bool) for _ in range(2))
        inner[edges.ends[edges.bend_rad > MILD_RAD].reshape(-1)] = True
        outer[edges.ends[edges.bend_rad < -MILD_RAD].reshape(-1)] = True
        both: NDArray[np.bool_] = inner & ~outer
        return both

    @cached_property
    def inner_corners(self) -> NDArray[np.bool_]:
        """Vertices at the ends of edges that point inwards, and those that stand out of mild ones (a drill's point)."""
        stands = self._all_inner & (self.spread_rad > BEND_RAD)
        stands[self.edges.ends[self.edges.bend_rad > BEND_RAD].reshape(-1)] = True
        return stands

    def reached(self, low_mm: Floats, high_mm: Floats) -> Ints:
        """Return the triangles that reach into a box, told by their own boxes, the lowest number first."""
        return reaching(self.tree, low_mm, high_mm)

    @cached_property
    def edges(self) -> Edges:
        """The edges between two triangles."""
        mesh = self.solid.trimesh
        pairs = np.asarray(mesh.face_adjacency, dtype=np.int64).reshape(-1, 2)
        ends = np.asarray(mesh.face_adjacency_edges, dtype=np.int64).reshape(-1, 2)
        bare = (self.normals[pairs] == 0.0).all(axis=2).any(axis=1)
        pairs, ends = pairs[~bare], ends[~bare]
        one, other = self.normals[pairs[:, 0]], self.normals[pairs[:, 1]]
        along = self.solid.vertices_mm[ends]
        # The other triangle's far corner lies on the outer side of this one's plane where the edge points inwards.
        far = self.solid.corners_mm[pairs[:, 1]].sum(axis=1) - along.sum(axis=1) - along[:, 0]
        bend = np.arctan2(np.linalg.norm(np.cross(one, other), axis=1), np.einsum("ij,ij->i", one, other))
        return Edges(faces=pairs, ends=ends, bend_rad=np.where(np.einsum("ij,ij->i", far, one) > 0, bend, -bend))

    @cached_property
    def edges_of(self) -> Ints:
        """Which edges each triangle has, (m, 3), -1 where there are fewer."""
        return table_of(self.edges.faces, len(self.normals))

    @property
    def reach_mm(self) -> float:
        """Up to where walls are measured by balls and from inner edges: in tiny parts all lies near to all."""
        return min(REACH_MM, REACH_SHARE * float(np.max(self.solid.size_mm)))

    @property
    def lift_mm(self) -> float:
        """A step past the single precision of the rays' engine."""
        return 1e-6 * float(np.max(self.solid.size_mm))

    def free_mm(self, starts_mm: Floats, ways: Floats) -> tuple[Floats, Ints]:
        """Return how far each ray goes from just inside before it meets a surface (infinite: none), and the face."""
        distance, face = np.full(len(starts_mm), np.inf), np.full(len(starts_mm), -1, np.int64)
        good = np.flatnonzero(np.isfinite(starts_mm).all(axis=1) & (np.abs(ways).max(axis=1, initial=0.0) > 0.5))
        if len(good):  # the engine must not be asked about rays that lead nowhere
            hits = first_hits(self.solid, self.normals, starts_mm[good], ways[good])
            distance[good[hits.ray]], face[good[hits.ray]] = hits.distance_mm, hits.face
        return distance, face


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Edges:
    """Edges between two ``faces`` (e, 2): vertices ``ends`` (e, 2), ``bend_rad`` positive where it points inwards."""

    faces: Ints
    ends: Ints
    bend_rad: Floats


def shape_of(solid: Solid) -> Shape:
    """Make a solid ready."""
    return Shape(solid=solid, normals=face_normals(solid), areas_mm2=face_areas(solid))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pairs:
    """Places where matter lies between two points of the surface, k of them.

    Parameters
    ----------
    here, there : (k, 3) float
        Both points, in mm.
    toward, opposite : (k, 3) float
        The directions outward at both; at an inner edge or corner, the one of those possible that fits best.
    thickness_mm : (k,) float
        Diameter of the ball between them.
    area_mm2 : (k,) float
        Surface that ``here`` stands for; 0 for the samples beside it.
    face : (k,) int
        Triangle of ``here``.
    inner : (k,) bool
        Whether ``here`` is an edge or a corner that points inwards.
    """

    here: Floats
    there: Floats
    toward: Floats
    opposite: Floats
    thickness_mm: Floats
    area_mm2: Floats
    face: Ints
    inner: NDArray[np.bool_]

    def __len__(self) -> int:
        return len(self.here)

    @property
    def middle(self) -> Floats:
        """Points half-way, (k, 3)."""
        middle: Floats = (self.here + self.there) / 2.0
        return middle

    @property
    def lean_rad(self) -> Floats:
        """Angle by which both sides are off from facing away from each other, (k,)."""
        cos = -np.einsum("ij,ij->i", self.toward, self.opposite)
        sin = np.linalg.norm(np.cross(self.toward, self.opposite), axis=1)
        lean: Floats = np.arctan2(sin, cos)
        return lean

    def only(self, keep: NDArray[np.bool_] | Ints) -> Pairs:
        """Return some of them."""
        return Pairs(**{name: getattr(self, name)[keep] for name in self.__slots__})


def together(*some: Pairs) -> Pairs:
    """Return several lots as one."""
    return Pairs(**{name: np.concatenate([getattr(one, name) for one in some]) for name in Pairs.__slots__})
