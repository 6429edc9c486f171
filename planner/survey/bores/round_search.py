"""The search for rounds: regions of triangles that bend inward, whole and in parts, and what is left of them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.around_axis import across
from planner.survey.bores.cylinder import FACES_LEAST, Cylinder, edges_near_mm, measured, own_ends
from planner.survey.bores.facets import BEND_RAD, FLAT_RAD, Facets, distinct, pieces
from planner.survey.bores.fitted_circles import (
    CUT_LEAST,
    EXACT,
    ON_LEAST,
    Round,
    Slack,
    circle_among,
    fitted,
    neighbours_of,
    round_of,
)
from planner.survey.bores.grown_round import LEAN_MOST, grown, surface_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

CONVEX_RAD = float(np.radians(20.0))
"""Where corners of both rims are joined crosswise, a wall bends outward a little in places."""
EVEN_MOST = 0.97
"""Length of the mean normal of a region: an arc of 48 degrees has 0.97, a flat 1."""
TURN_LEAST_DEG, BEYOND_MOST = 40.0, 0.05
RADIUS_MOST = 2.0
"""In diagonals of the mesh: of a wider round it holds less than 40 degrees, the chord of which is 0.68 radii."""
WHOLE_DEG, TURNED_DEG = 185.0, 345.0
"""From here on round, a wall is more than a fillet, and stands all round."""
CIRCLES_MOST = 40
SPENT_MOST = 100
"""So many circles are tried for each wide cylinder that a mesh has shown, and for three that it has not."""
FAILURES_MOST = 3
"""So many circles are tried after the last that was one."""
LIKE_COS, SAME_COS = float(np.cos(np.radians(2.0))), float(np.cos(np.radians(0.3)))
AXES_MOST = 5


class RoundSearch:
    """The triangles of a mesh that are still free, and the cylinders found among the others."""

    def __init__(self, solid: Solid, facets: Facets) -> None:
        self.solid, self.facets, self.surface = solid, facets, surface_of(solid, facets)
        self.free: Bools = np.ones(len(solid.faces), dtype=bool)
        self.place: Ints = np.full(len(solid.faces), -1, dtype=np.int64)
        self.found: list[Cylinder] = []
        self.spent_n = self.wide_n = 0
        self.widest_mm = RADIUS_MOST * float(np.linalg.norm(solid.size_mm))
        bend = np.where(facets.concave, facets.angle_rad, -facets.angle_rad)
        edge = solid.vertices_mm[facets.edges[:, 1]] - solid.vertices_mm[facets.edges[:, 0]]
        self.bent: Floats = bend * np.linalg.norm(edge, axis=1)

    def look(self, slack: Slack) -> None:
        """Take what lies on cylinders by a slack: whole regions first, then parts of regions."""
        facets, before = self.facets, len(self.found)
        gentle = facets.angle_rad < BEND_RAD
        inward = gentle & (facets.concave | (facets.angle_rad < FLAT_RAD))
        for faces in self.regions(inward):
            self.take(faces, None, slack)
        if slack is not EXACT and not self.wide(before):
            return  # nothing in this mesh was drawn so loosely: what nearly fits is another surface
        for links in (inward, gentle & (inward | (facets.angle_rad < CONVEX_RAD))):
            for faces in self.regions(links):
                self.part(faces, slack)

    def wide(self, first: int) -> bool:
        """Return whether any cylinder, from a first one on, is more than a fillet or a band of another surface."""
        found = (c for c in self.found[first:] if c.coverage_deg > WHOLE_DEG)
        return any(own_ends(self.solid, self.facets, c) for c in found)

    def exact(self) -> bool:
        """Return whether any cylinder stands all round with hardly a corner outside its circle."""
        for found in self.found:
            away = self.solid.corners_mm[found.faces].reshape(-1, 3) - found.centre
            out = np.linalg.norm(away - (away @ found.axis)[:, None] * found.axis, axis=1)
            beyond = out > found.radius_mm + EXACT.mm(found.radius_mm)
            if found.coverage_deg > TURNED_DEG and beyond.mean() < BEYOND_MOST:
                return True
        return False

    def regions(self, links: Bools) -> list[Ints]:
        """Return the free triangles of every region that bends inward, by links between neighbours."""
        links = links & self.free[self.facets.pairs].all(axis=1)
        return self._bent_inward(np.flatnonzero(self.free), np.flatnonzero(links))

    def _bent_inward(self, faces: Ints, links: Ints) -> list[Ints]:
        """Part some triangles into joined pieces and return those that bend inward far enough to hold an arc."""
        if len(faces) < FACES_LEAST:
            return []
        self.place[faces] = np.arange(len(faces))
        pair = self.place[self.facets.pairs[links]]
        self.place[faces] = -1
        label = pieces(pair, len(faces))
        n = int(label.max()) + 1
        area = np.where(self.facets.thin[faces], 0.0, self.facets.areas_mm2[faces])
        normals = self.facets.normals[faces]
        mean = np.stack([np.bincount(label, weights=area * normals[:, k], minlength=n) for k in range(3)], axis=1)
        total = np.maximum(np.bincount(label, weights=area, minlength=n), 1e-30)
        bent = np.bincount(label[pair[:, 0]], weights=self.bent[links], minlength=n)
        good = (np.linalg.norm(mean, axis=1) < EVEN_MOST * total) & (bent > 0.0)
        good &= np.bincount(label, minlength=n) >= FACES_LEAST
        order = np.argsort(label, kind="stable")
        starts = np.searchsorted(label[order], np.arange(n + 1))
        return [faces[order[starts[k] : starts[k + 1]]] for k in np.flatnonzero(good)]

    def take(self, faces: Ints, axis: Floats | None, slack: Slack, noise: float = 0.0) -> bool:
        """Take some triangles for one cylinder, about the axis that their normals vary least along or a given one."""
        faces = faces[self.free[faces]]
        if len(faces) < FACES_LEAST:
            return False
        points = self.solid.vertices_mm[distinct(self.solid.faces[faces], len(self.solid.vertices_mm))]
        normals, areas = self.facets.normals[faces], self.facets.areas_mm2[faces]
        tried = [np.linalg.eigh((normals * areas[:, None]).T @ normals)[1][:, 0], *([] if axis is None else [axis])]
        for way in tried:
            found = fitted(points, way, slack, hull=noise == 0.0)
            if found is not None and self._claim(found, faces, slack, noise):
                return True
        return False

    def _claim(self, found: Round, faces: Ints, slack: Slack, noise: float) -> bool:
        """Claim those triangles that lie on a round, and all that are joined to them on it; False where it is none."""
        if found.radius_mm > self.widest_mm:
            return False
        on = grown(self.surface, self.free, found, faces[self._lies_on(found, faces)])
        cylinder = self._measured(found, on, slack, noise)
        if cylinder is None and noise == 0.0:  # the flat of a shaft's end has its corners on the circle, too
            on = on[self._near_mm(found, on) >= CUT_LEAST * found.radius_mm]
            cylinder = self._measured(found, on, slack, noise)
        if cylinder is None or cylinder.coverage_deg < TURN_LEAST_DEG:
            return False
        self.free[on] = False
        self.found.append(cylinder)
        self.wide_n += cylinder.coverage_deg > WHOLE_DEG
        return True

    def _measured(self, found: Round, on: Ints, slack: Slack, noise: float) -> Cylinder | None:
        """Return the cylinder that some triangles on a round are, fitted again to all of them."""
        if len(on) < FACES_LEAST:
            return None
        points = self.solid.vertices_mm[distinct(self.solid.faces[on], len(self.solid.vertices_mm))]
        refitted = fitted(points, found.axis, slack, hull=noise == 0.0)
        return measured(self.solid, self.facets, on, refitted or found, noise)

    def _near_mm(self, found: Round, faces: Ints) -> Floats:
        """Return how near the edges of each of some triangles come to the axis of a round."""
        flat = (self.solid.corners_mm[faces] - found.centre) @ across(found.axis).T
        ends = np.roll(flat, -1, axis=1).reshape(-1, 2)
        one, other, third = edges_near_mm(flat.reshape(-1, 2), ends).reshape(-1, 3).T
        near: Floats = np.minimum(np.minimum(one, other), third)
        return near

    def _lies_on(self, found: Round, faces: Ints) -> Bools:
        """Return which triangles lie on a round."""
        corners = self.solid.corners_mm[faces]
        on = found.holds(corners).all(axis=1)
        upright = np.abs(self.facets.normals[faces] @ found.axis) < LEAN_MOST
        lies: Bools = on & (upright | self.facets.thin[faces])
        return lies

    def part(self, faces: Ints, slack: Slack) -> None:
        """Look for cylinders within a region that is more than one, along every axis that it suggests."""
        if self.take(faces, None, slack):
            self._kept()
        if self.spent_n > SPENT_MOST * (3 + self.wide_n):
            return
        for axis in self._axes(faces):
            faces = faces[self.free[faces]]
            upright = faces[(np.abs(self.facets.normals[faces] @ axis) < LEAN_MOST) | self.facets.thin[faces]]
            for piece in self._bent_inward(upright, self._links(upright)):
                if self.spent_n > SPENT_MOST * (3 + self.wide_n):
                    return
                self._circles(piece, axis, slack)

    def _kept(self) -> bool:
        """Keep the last cylinder found, unless it is a stretch of a surface that curves on: its triangles are spent."""
        if own_ends(self.solid, self.facets, self.found[-1]):
            return True
        self.wide_n -= self.found.pop().coverage_deg > WHOLE_DEG
        return False

    def _links(self, faces: Ints) -> Ints:
        """Return the gentle pairs among some triangles."""
        facets = self.facets
        self.place[faces] = 0
        pair = distinct(facets.pairs_of[faces], len(facets.pairs))
        gentle = (facets.angle_rad[pair] < BEND_RAD) & (facets.concave[pair] | (facets.angle_rad[pair] < CONVEX_RAD))
        links: Ints = pair[gentle & (self.place[facets.pairs[pair]] >= 0).all(axis=1)]
        self.place[faces] = -1
        return links

    def _circles(self, faces: Ints, axis: Floats, slack: Slack) -> None:
        """Take every arc among some triangles that stand about one axis."""
        corner = distinct(self.solid.faces[faces], len(self.solid.vertices_mm))
        points = self.solid.vertices_mm[corner]
        flat = points @ across(axis).T
        failures, near = 0, None
        for tried in range(CIRCLES_MOST):
            if len(flat) < ON_LEAST or failures > FAILURES_MOST:
                return
            near = near or neighbours_of(flat)
            failures += 1
            self.spent_n += 1
            found = circle_among(flat, slack, seed=tried, near=near)
            if found is None:
                continue
            centre, radius, on = found
            round_ = round_of(flat[on], axis, centre, radius, 2.0 * slack.mm(radius))
            some = faces[self.free[faces]]
            some = some[self._lies_on(round_, some)]
            for piece in self._bent_inward(some, self._links(some)):
                if not self.take(piece, axis, slack):
                    continue
                failures = 0 if self._kept() else failures
            flat, near = flat[~on], None

    def _axes(self, faces: Ints) -> list[Floats]:
        """Return directions that bores in a region may have: of its bends, its normals, and the faces it ends in."""
        facets = self.facets
        self.place[faces] = 0
        pair = distinct(facets.pairs_of[faces], len(facets.pairs))
        inside = self.place[facets.pairs[pair]] >= 0
        self.place[faces] = -1
        edge = self.solid.vertices_mm[facets.edges[pair, 1]] - self.solid.vertices_mm[facets.edges[pair, 0]]
        length = np.linalg.norm(edge, axis=1)
        bent = inside.all(axis=1) & facets.concave[pair] & (facets.angle_rad[pair] > FLAT_RAD) & (length > 0)
        rim = inside.sum(axis=1) == 1
        outside = np.where(inside[rim, 0], facets.pairs[pair[rim], 1], facets.pairs[pair[rim], 0])
        axes = _clusters(
            facets.normals[outside], length[rim]
        )  # mouths and floors mostly stand square: exact ones first
        axes += _clusters(edge[bent] / length[bent, None], length[bent])
        normals = facets.normals[faces]
        axes += list(np.linalg.eigh((normals * facets.areas_mm2[faces][:, None]).T @ normals)[1].T)
        different: list[Floats] = []
        for axis in axes:
            if all(abs(float(axis @ other)) < SAME_COS for other in different):
                different.append(axis)
        return different


def _clusters(ways: Floats, weight: Floats) -> list[Floats]:
    """Return the directions, up or down alike, that carry the most weight, the heaviest first."""
    found: list[Floats] = []
    while len(ways) and len(found) < AXES_MOST:
        chosen = ways[int(np.argmax(weight))]
        like = np.abs(ways @ chosen) > LIKE_COS
        like |= ways @ chosen == 1.0
        found.append(chosen)
        if not like.any():
            break
        ways, weight = ways[~like], weight[~like]
    return found
