"""Concave cylinders in a mesh, whatever the pattern of their triangles.

Triangles that meet in gentle bends are one region. A region whose outermost corners lie on one circle across
the axis that its normals vary least along is a cylinder; what is left over is looked at once more along every
axis that the region suggests. Each found cylinder then takes in its neighbours that lie on it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.facets import BEND_RAD, FLAT_RAD, Facets, pieces
from planner.survey.fitted import COARSE, CUT_LEAST, EXACT, ROUNDED, Round, Slack, circle_among, fitted, noisy, round_of
from planner.survey.patches import noise_mm, patches_of
from planner.survey.round import across, turn, whole
from planner.survey.round_ends import ends_are_its_own

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

CONVEX_RAD = float(np.radians(20.0))
"""Where corners of both rims are joined crosswise, a wall bends outward a little in places."""
EVEN_MOST = 0.97
"""Length of the mean normal of a region: an arc of 48 degrees has 0.97, a flat 1."""
FACES_LEAST = 4
LEAN_MOST = 0.5
"""Sine of the lean of a wall's triangle: between staggered rims a coarse shallow bore's lean by up to 30 degrees."""
WALL_LEAN = 0.02
"""Sine of the lean, about one degree, below which a neighbour that nearly lies on a cylinder belongs to it."""
TURN_LEAST_DEG, HELD_LEAST, BEYOND_MOST = 40.0, 0.9, 0.05
WHOLE_DEG, TURNED_DEG = 185.0, 345.0
"""From here on round, a wall is more than a fillet, and stands all round."""
WIDEST_DEG = 61.0
"""No facet is wider; a hexagon's are 60 degrees."""
CIRCLES_MOST = 40
SPENT_MOST = 100
"""So many circles are tried for each cylinder that a mesh has shown, and for three that it has not."""
FAILURES_MOST = 3
"""So many circles are tried after the last that was one."""
LIKE_COS, SAME_COS = float(np.cos(np.radians(2.0))), float(np.cos(np.radians(0.3)))
AXES_MOST = 5
NEARLY = 0.01
"""Share of the radius by which a loosely fitted stretch of a bore may differ from the rest."""
ALIKE, PARALLEL_COS, TOUCH_MM = 0.08, float(np.cos(np.radians(4.0))), 0.01
"""How alike arcs of one circle are, fitted each by itself: in share of the radius, in lean, and along the axis."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class Cylinder:
    """One concave cylinder. ``low``, ``high`` are its ends along ``axis``, measured from the origin.

    ``faces`` are its triangles; ``turn`` (720,) tells which half degrees round the axis have a wall.
    """

    faces: Ints
    axis: Floats
    centre: Floats
    radius_mm: float
    slack_mm: float
    """How far its corners may lie off the circle."""
    flat_mm: float
    """Least distance of the wall from the axis: the inscribed radius."""
    facets_n: int
    """Corners round the circle."""
    low: float
    high: float
    turn: Bools
    whole: tuple[float, float]
    """Between which places along the axis the wall stands all round; an oblique mouth is left out."""

    @property
    def coverage_deg(self) -> float:
        """How far round the wall reaches."""
        return float(self.turn.mean() * 360.0)

    @property
    def depth_mm(self) -> float:
        """Extent along the axis."""
        return self.high - self.low

    def at(self, along: float) -> Floats:
        """Return the point of the axis at a distance along it."""
        point: Floats = self.centre + (along - float(self.centre @ self.axis)) * self.axis
        return point


def cylinders_of(solid: Solid, facets: Facets) -> list[Cylinder]:
    """Return every concave cylinder of a mesh, whole or partial, that ends in edges or is long."""
    search, noise = _Search(solid, facets), 0.0
    search.look(EXACT)
    if not search.exact():  # where corners lie on circles exactly, what bends both ways was drawn so
        noise = noise_mm(solid, facets)
    if noise:
        search = _Search(solid, facets)
        for faces in patches_of(solid, facets, noise):
            search.take(faces, None, noisy(noise), noise)
    else:
        search.look(ROUNDED)
    search.look(COARSE)
    united = _united(solid, facets, search.found, noise)
    return [c for c in united if _own_ends(solid, facets, c)]


def _own_ends(solid: Solid, facets: Facets, found: Cylinder) -> bool:
    """Return whether a cylinder ends of its own, and is no stretch of a surface that curves on."""
    return ends_are_its_own(solid, facets, found.faces, found.axis, found.radius_mm, found.slack_mm)


def _united(solid: Solid, facets: Facets, parts: list[Cylinder], noise: float) -> list[Cylinder]:
    """Put arcs of one circle together that a slot, a keyway or a crossing bore has cut apart."""
    left = sorted(parts, key=lambda c: -c.coverage_deg * c.depth_mm)
    done: list[Cylinder] = []
    while left:
        one = left.pop(0)
        axes, centres = np.array([c.axis for c in left]).reshape(-1, 3), np.array([c.centre for c in left]).reshape(-1, 3)
        radii, deep = np.array([c.radius_mm for c in left]), np.array([c.depth_mm for c in left])
        away = centres - one.centre
        along = away @ one.axis
        beside = np.linalg.norm(away - along[:, None] * one.axis, axis=1)
        near = ALIKE * one.radius_mm
        like = (np.abs(axes @ one.axis) > PARALLEL_COS) & (beside < near) & (np.abs(radii - one.radius_mm) < near)
        like &= np.abs(along) < (deep + one.depth_mm) / 2 + TOUCH_MM
        gone = []
        for k in np.flatnonzero(like):
            both = united(solid, facets, [one, left[k]], noise) or _absorbed(solid, facets, one, left[k], noise)
            if both is not None:
                one = both
                gone.append(k)
        left = [c for k, c in enumerate(left) if k not in gone]
        if gone:
            left.append(one)  # it may reach others now
        else:
            done.append(one)
    return done


def _absorbed(solid: Solid, facets: Facets, one: Cylinder, other: Cylinder, noise: float) -> Cylinder | None:
    """Return a cylinder with the triangles of another that all but lie on it, fitted to its own alone; else None."""
    away = other.centre - one.centre
    beside = float(np.linalg.norm(away - (away @ one.axis) * one.axis))
    near = NEARLY * one.radius_mm
    if other.slack_mm <= one.slack_mm or beside > near or abs(one.radius_mm - other.radius_mm) > near:
        return None
    along = abs(float(away @ one.axis))
    if along > (one.depth_mm + other.depth_mm) / 2 - near:  # a step of its own
        return None
    points = solid.vertices_mm[np.unique(solid.faces[one.faces])]
    found = fitted(points, one.axis, _slack_of([one]), hull=noise == 0.0)
    faces = np.concatenate([one.faces, other.faces])
    return None if found is None else measured(solid, facets, faces, found, noise)


def united(solid: Solid, facets: Facets, parts: Sequence[Cylinder], noise: float) -> Cylinder | None:
    """Return the one cylinder that some are parts of, or None."""
    faces = np.concatenate([c.faces for c in parts])
    points = solid.vertices_mm[np.unique(solid.faces[faces])]
    slack = noisy(noise) if noise else _slack_of(parts)
    found = fitted(points, parts[0].axis, slack, hull=noise == 0.0)
    if found is None or found.holds(points).mean() < HELD_LEAST:
        return None
    return measured(solid, facets, faces, found, noise)


def _slack_of(parts: Sequence[Cylinder]) -> Slack:
    """Return the slack of those parts that were drawn most exactly: they say what is one with them."""
    return ROUNDED if any(c.slack_mm < 1.1 * ROUNDED.mm(c.radius_mm) for c in parts) else COARSE


class _Search:
    """The triangles of a mesh that are still free, and the cylinders found among the others."""

    def __init__(self, solid: Solid, facets: Facets) -> None:
        self.solid, self.facets = solid, facets
        self.free: Bools = np.ones(len(solid.faces), dtype=bool)
        self.place: Ints = np.full(len(solid.faces), -1, dtype=np.int64)
        self.found: list[Cylinder] = []
        self.spent_n = 0
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
        return any(_own_ends(self.solid, self.facets, c) for c in found)

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
        points = self.solid.vertices_mm[np.unique(self.solid.faces[faces])]
        normals, areas = self.facets.normals[faces], self.facets.areas_mm2[faces]
        tried = [np.linalg.eigh((normals * areas[:, None]).T @ normals)[1][:, 0], *([] if axis is None else [axis])]
        for way in tried:
            found = fitted(points, way, slack, hull=noise == 0.0)
            if found is not None and self._claim(found, faces, slack, noise):
                return True
        return False

    def _claim(self, found: Round, faces: Ints, slack: Slack, noise: float) -> bool:
        """Claim those triangles that lie on a round, and all that are joined to them on it; False where it is none."""
        on = self._grown(found, faces[self._lies_on(found, faces)])
        if len(on) < FACES_LEAST:
            return False
        points = self.solid.vertices_mm[np.unique(self.solid.faces[on])]
        refitted = fitted(points, found.axis, slack, hull=noise == 0.0)
        cylinder = measured(self.solid, self.facets, on, refitted or found, noise)
        if cylinder is None or cylinder.coverage_deg < TURN_LEAST_DEG:
            return False
        self.free[on] = False
        self.found.append(cylinder)
        return True

    def _lies_on(self, found: Round, faces: Ints) -> Bools:
        """Return which triangles lie on a round."""
        corners = self.solid.corners_mm[faces]
        on = found.holds(corners).all(axis=1)
        upright = np.abs(self.facets.normals[faces] @ found.axis) < LEAN_MOST
        lies: Bools = on & (upright | self.facets.thin[faces])
        return lies

    def _grown(self, found: Round, faces: Ints) -> Ints:
        """Return some triangles and all free ones that are joined to them on the same round."""
        facets, taken, front = self.facets, [faces], faces
        coarse = replace(found, slack_mm=max(found.slack_mm, COARSE.mm(found.radius_mm)))
        self.free[faces] = False
        while len(front):
            pair = facets.pairs_of[front]
            owner, pair = np.repeat(front, 3)[pair.ravel() >= 0], pair[pair >= 0]
            near = facets.pairs[pair].sum(axis=1) - owner
            joined = self.free[near] & (facets.angle_rad[pair] < BEND_RAD)
            near, pair = near[joined], pair[joined]
            beside = self._stands(found.axis, pair) & (np.abs(facets.normals[near] @ found.axis) < WALL_LEAN)
            on = self._lies_on(found, near)
            on[~on & beside] = self._lies_on(coarse, near[~on & beside])
            front = np.unique(near[on])
            self.free[front] = False
            taken.append(front)
        grown = np.concatenate(taken)
        self.free[grown] = True
        return grown

    def _stands(self, axis: Floats, pair: Ints) -> Bools:
        """Return which shared edges stand along an axis."""
        ends = self.solid.vertices_mm[self.facets.edges[pair]]
        edge = ends[:, 1] - ends[:, 0]
        stands: Bools = np.abs(edge @ axis) > 0.9 * np.linalg.norm(edge, axis=1)
        return stands

    def part(self, faces: Ints, slack: Slack) -> None:
        """Look for cylinders within a region that is more than one, along every axis that it suggests."""
        if self.take(faces, None, slack):
            faces = faces[self.free[faces]]
        for axis in self._axes(faces):
            faces = faces[self.free[faces]]
            upright = faces[(np.abs(self.facets.normals[faces] @ axis) < LEAN_MOST) | self.facets.thin[faces]]
            for piece in self._bent_inward(upright, self._links(upright)):
                if self.spent_n > SPENT_MOST * (3 + len(self.found)):
                    return
                self._circles(piece, axis, slack)

    def _links(self, faces: Ints) -> Ints:
        """Return the gentle pairs among some triangles."""
        facets = self.facets
        self.place[faces] = 0
        pair = np.unique(facets.pairs_of[faces])
        pair = pair[pair >= 0]
        gentle = (facets.angle_rad[pair] < BEND_RAD) & (facets.concave[pair] | (facets.angle_rad[pair] < CONVEX_RAD))
        links: Ints = pair[gentle & (self.place[facets.pairs[pair]] >= 0).all(axis=1)]
        self.place[faces] = -1
        return links

    def _circles(self, faces: Ints, axis: Floats, slack: Slack) -> None:
        """Take every arc among some triangles that stand about one axis."""
        corner = np.unique(self.solid.faces[faces])
        points = self.solid.vertices_mm[corner]
        flat = points @ across(axis).T
        failures = 0
        for tried in range(CIRCLES_MOST):
            found = circle_among(flat, slack, seed=tried, near=True) if len(flat) else None
            if found is None or failures > FAILURES_MOST:
                return
            failures += 1
            self.spent_n += 1
            centre, radius, on = found
            round_ = round_of(flat[on], axis, centre, radius, 2.0 * slack.mm(radius))
            some = faces[self.free[faces]]
            some = some[self._lies_on(round_, some)]
            for piece in self._bent_inward(some, self._links(some)):
                if not self.take(piece, axis, slack):
                    continue
                if _own_ends(self.solid, self.facets, self.found[-1]):
                    failures = 0
                else:  # a stretch of a surface that curves on: its triangles are spent, and it is no cylinder
                    self.found.pop()
            flat = flat[~on]

    def _axes(self, faces: Ints) -> list[Floats]:
        """Return directions that bores in a region may have: of its bends, its normals, and the faces it ends in."""
        facets = self.facets
        self.place[faces] = 0
        pair = np.unique(facets.pairs_of[faces])
        pair = pair[pair >= 0]
        inside = self.place[facets.pairs[pair]] >= 0
        self.place[faces] = -1
        edge = self.solid.vertices_mm[facets.edges[pair, 1]] - self.solid.vertices_mm[facets.edges[pair, 0]]
        length = np.linalg.norm(edge, axis=1)
        bent = inside.all(axis=1) & facets.concave[pair] & (facets.angle_rad[pair] > FLAT_RAD) & (length > 0)
        rim = inside.sum(axis=1) == 1
        outside = np.where(inside[rim, 0], facets.pairs[pair[rim], 1], facets.pairs[pair[rim], 0])
        axes = _clusters(facets.normals[outside], length[rim])  # mouths and floors mostly stand square: exact ones first
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


def measured(solid: Solid, facets: Facets, faces: Ints, found: Round, noise: float) -> Cylinder | None:
    """Return the cylinder that some triangles on a round are; None where it is a boss or a mere strip."""
    corners, axis = solid.corners_mm[faces], found.axis
    frame = across(axis)
    flat = (corners - found.centre) @ frame.T
    inward = -np.einsum("ij,ij->i", flat.mean(axis=1) @ frame, facets.normals[faces])
    if float(inward @ facets.areas_mm2[faces]) <= 0.0:
        return None
    along = corners @ axis
    vertices = solid.vertices_mm[np.unique(solid.faces[faces])]
    rim = vertices
    if noise:
        deep = vertices @ axis
        rim = vertices[deep < deep.min() + 14 * noise]
    round_n = _round_n((rim - found.centre) @ frame.T, found)
    turned = turn(flat)
    if round_n < max(FACES_LEAST, turned.mean() * 360.0 / WIDEST_DEG):
        return None
    free = _free_mm(flat)
    if noise == 0.0 and free < CUT_LEAST * found.radius_mm:
        return None
    planes = -np.einsum("ij,ij->i", (corners[:, 0] - found.centre), facets.normals[faces])
    return Cylinder(
        faces=faces,
        axis=axis,
        centre=found.centre + (float(along.min() + along.max()) / 2 - float(found.centre @ axis)) * axis,
        radius_mm=found.radius_mm,
        slack_mm=found.slack_mm,
        flat_mm=free if noise == 0.0 else float(np.median(planes)),
        facets_n=round_n,
        low=float(along.min()),
        high=float(along.max()),
        turn=turned,
        whole=whole(flat.reshape(-1, 2), along.ravel()),
    )


def _round_n(flat: Floats, found: Round) -> int:
    """Return how many corners stand round the circle itself; those within 0.2 degrees are one."""
    inside = found.radius_mm - np.linalg.norm(flat, axis=1)
    on = flat[inside < found.slack_mm]
    angle = np.sort(np.degrees(np.arctan2(on[:, 1], on[:, 0])))
    return int((np.diff(angle, append=angle[0] + 360.0) > 0.2).sum()) if len(angle) else 0


def _free_mm(flat: Floats) -> float:
    """Return how near the edges of triangles (n, 3, 2) come to the axis: the cylinder that they leave free."""
    start = flat.reshape(-1, 2)
    way = (np.roll(flat, -1, axis=1) - flat).reshape(-1, 2)
    share = np.clip(-(start * way).sum(axis=1) / np.maximum((way**2).sum(axis=1), 1e-24), 0.0, 1.0)
    return float(np.linalg.norm(start + share[:, None] * way, axis=1).min())
