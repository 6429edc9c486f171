"""A cut that falls into several pieces: each of its sides may come apart, and every part carries its own loads alone.

Where a plane goes through both limbs of a hook, the free limb carries nothing of what presses on the other. So each
half of the part is taken apart, and what presses a piece must pass through the places where that piece was cut
(equilibrium, textbook).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import manifold3d
import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from planner.finding import Vec3
from planner.layers import shape_of
from planner.strength.beam.cut_forces import Cut
from planner.strength.beam.flat_moments import polygons_of
from planner.strength.loads.part_load import PartLoad

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
BESIDE_MM = 0.02
"""So far from the cut a piece is asked which of the cut's polygons are its own."""


@dataclass(frozen=True, kw_only=True, eq=False)  # no slots: its places are found once
class Piece:
    """One body that a cut leaves on a side of it (1 beyond, -1 before), with what of the cut is its own."""

    body: manifold3d.Manifold
    side: int
    shape: shapely.Geometry

    def gap_mm(self, at_mm: Floats) -> tuple[float, float]:
        """Return how far a place lies from the box about the body, and then from its corners and faces' middles."""
        low, high, places = self.places_mm
        out = np.maximum(np.maximum(low - at_mm, at_mm - high), 0.0)
        return round(float(np.linalg.norm(out)), 3), float(np.linalg.norm(places - at_mm, axis=1).min())

    @cached_property
    def places_mm(self) -> tuple[Floats, Floats, Floats]:
        """The corners of the box about the body, and the body's own corners and faces' middles (n, 3)."""
        low, high = np.reshape(self.body.bounding_box(), (2, 3))
        mesh = self.body.to_mesh()
        points = np.asarray(mesh.vert_properties, dtype=float)[:, :3]
        return low, high, np.vstack([points, points[np.asarray(mesh.tri_verts)].mean(axis=1)])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces:
    """All bodies that a cut leaves; none where each side of it holds together."""

    turned_mm: Floats
    """What the part was moved by, (3, 4)."""
    each: tuple[Piece, ...] = ()
    _known: dict[Vec3, int] = field(default_factory=dict)

    def pressed(self, cut: Cut, loads: Sequence[PartLoad]) -> list[tuple[shapely.Geometry, list[PartLoad]]]:
        """Return what of the cut each pressed piece has, with the loads on it: those nearest to it on its side."""
        mine: dict[int, list[PartLoad]] = {}
        for load in loads:
            mine.setdefault(self._owner(cut, load.at_mm), []).append(load)
        return [(self.each[k].shape, found) for k, found in mine.items() if k >= 0 and not self.each[k].shape.is_empty]

    def _owner(self, cut: Cut, at_mm: Vec3) -> int:
        """Return which piece a place belongs to; -1 where that side has none."""
        if at_mm not in self._known:
            side = 1 if (np.array(at_mm) - cut.at_mm) @ cut.axes[2] > 0.0 else -1
            there = [k for k, one in enumerate(self.each) if one.side == side]
            at = self.turned_mm[:, :3] @ np.array(at_mm) + self.turned_mm[:, 3]
            far = there[1:]  # one alone needs no measuring
            self._known[at_mm] = min(there, key=lambda k: self.each[k].gap_mm(at) if far else (0.0, 0.0), default=-1)
        return self._known[at_mm]


def comes_apart(heights_mm: Floats, edges: Ints, height_mm: float) -> bool:
    """Return whether the surface beyond or before a level cut is in several pieces; a hollow inside counts as one.

    Each side of a cut triangle holds a corner of it, so that two triangles side by side are joined by an edge whose
    corners lie on one side: the corners and edges of a side come apart where its surface does.
    """
    for on in (heights_mm > height_mm, heights_mm <= height_mm):
        kept = edges[on[edges[:, 0]] & on[edges[:, 1]]]
        n = len(heights_mm)
        links = coo_matrix((np.ones(len(kept), dtype=np.int8), (kept[:, 0], kept[:, 1])), shape=(n, n))
        _, label = connected_components(links, directed=False)
        if len(np.unique(label[on])) > 1:
            return True
    return False


def pieces_of(
    turned: manifold3d.Manifold,
    turned_mm: Floats,
    height_mm: float,
    shape: shapely.Geometry,
    edges: Ints,
    points: Floats,
) -> Pieces:
    """Return the pieces that a level cut leaves of a body, where a side of it comes apart.

    ``points`` (n, 3) and ``edges`` (m, 2) are those of the part's mesh as it was drawn.
    """
    polygons = polygons_of(shape)
    heights = points @ turned_mm[2, :3] + turned_mm[2, 3]
    if len(polygons) < 2 or not comes_apart(heights, edges, height_mm):
        return Pieces(turned_mm=turned_mm)
    beyond, before = turned.split_by_plane((0.0, 0.0, 1.0), height_mm)
    sides = ((1, beyond.decompose()), (-1, before.decompose()))
    if all(len(bodies) < 2 for _, bodies in sides):
        return Pieces(turned_mm=turned_mm)
    found = []
    for side, bodies in sides:
        for body in bodies:
            beside = shape_of(body.slice(height_mm + side * BESIDE_MM)).buffer(2.0 * BESIDE_MM)
            own = [one for one in polygons if beside.intersects(one.representative_point())]
            found.append(Piece(body=body, side=side, shape=shapely.union_all(own)))
    return Pieces(turned_mm=turned_mm, each=tuple(found))
