"""Concave cylinders in a mesh: strips of facets with parallel bends whose corners lie on one circle."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.around_axis import across, circle, turn, whole
from planner.survey.bores.facets import Bends, Facets, members, pieces
from planner.survey.bores.patches import noise_mm, patches_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

PARALLEL_COS = float(np.cos(np.radians(4.0)))
"""Bends within 4 degrees of each other are parallel: coarse triangles of a bore lean as they wind round it."""
BENDS_MOST = 12
"""A facet with more bends than this is a floor or a wall, not a strip of a cylinder."""
BENDS_LEAST = 4
ROUND_MM, ROUND_SHARE = 0.01, 0.004
"""How far a corner may lie off the circle: the larger of both, as length and as share of the radius."""
CIRCLES_MOST, TRIALS = 6, 60
WALL_LEAN = 0.02
"""Sine of the lean, about one degree, that a wall may have against the axis."""
PATCH_LEAST = 8
"""A patch of fewer triangles is no bore."""
NOISES = 3.5
"""So many standard deviations of noise may a corner lie off."""
SMOOTH_RAD = float(np.radians(20.0))
"""A bend below this at the end of a cylinder means that the surface goes on."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class Cylinder:
    """One concave cylinder. ``low``, ``high`` are its ends along ``axis``, measured from the origin.

    ``turn`` (720,) tells which half degrees round the axis have a wall; ``facet_angles`` (f,) are the
    directions of its facets' normals, in degrees.
    """

    axis: Floats
    centre: Floats
    radius_mm: float
    flat_mm: float
    """Least distance of a facet's plane from the axis: the inscribed radius."""
    low: float
    high: float
    turn: NDArray[np.bool_]
    facet_angles: Floats
    whole: tuple[float, float]
    """Between which places along the axis the wall stands all round; an oblique mouth is left out."""

    @property
    def coverage_deg(self) -> float:
        """How far round the wall reaches."""
        return float(self.turn.mean() * 360.0)

    @property
    def facets_n(self) -> int:
        """Number of differently turned facets; those within 0.2 degrees are one."""
        angles = np.sort(self.facet_angles)
        steps = np.diff(angles, append=angles[0] + 360.0)
        return int((steps > 0.2).sum())

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
    order = np.argsort(facets.of_face, kind="stable")
    starts = np.searchsorted(facets.of_face[order], np.arange(facets.n + 1))
    found = []
    for strip in _strips(facets.bends):
        for bends in _circles(facets.bends, strip):
            members = np.unique(facets.bends.facets[bends])
            faces = np.concatenate([order[starts[f] : starts[f + 1]] for f in members])
            cylinder = _fitted(solid, facets, faces, 0.0)
            if cylinder is not None:
                found.append(cylinder)
    noise = noise_mm(solid, facets)
    if noise == 0.0:
        return found
    noisy = _noisy(solid, facets, noise)
    return noisy + [piece for piece in found if not any(_within(piece, whole, noise) for whole in noisy)]


def _noisy(solid: Solid, facets: Facets, noise: float) -> list[Cylinder]:
    """Return the cylinders among the patches of a mesh whose vertices are noisy."""
    fitted = (
        _fitted(solid, facets, faces, noise) for faces in patches_of(solid, facets, noise) if len(faces) >= PATCH_LEAST
    )
    return [cylinder for cylinder in fitted if cylinder is not None]


def _within(piece: Cylinder, other: Cylinder, noise: float) -> bool:
    """Return whether a piece is a part of another cylinder, seen through noise."""
    away = piece.centre - other.centre
    beside = float(np.linalg.norm(away - (away @ other.axis) * other.axis))
    slack = 0.05 * other.radius_mm + 2 * NOISES * noise
    return (
        beside < slack
        and abs(piece.radius_mm - other.radius_mm) < slack
        and abs(float(away @ other.axis)) < (other.depth_mm)
    )


def _strips(bends: Bends) -> list[Ints]:
    """Group bends that are parallel and share a facet."""
    k = len(bends.facets)
    if k == 0:
        return []
    facet = bends.facets.ravel()
    bend = np.repeat(np.arange(k), 2)
    order = np.argsort(facet, kind="stable")
    facet, bend = facet[order], bend[order]
    starts = np.flatnonzero(np.diff(facet, prepend=-1))
    count = np.diff(np.append(starts, len(facet)))
    rows, columns = [], []
    for step in range(1, BENDS_MOST):  # bends of one facet lie side by side: compare each with the next few
        here = np.arange(len(facet) - step)
        same = facet[here] == facet[here + step]
        few = np.repeat(count, count)[here] <= BENDS_MOST
        a, b = bend[here[same & few]], bend[here[same & few] + step]
        parallel = np.abs(np.einsum("ij,ij->i", bends.direction[a], bends.direction[b])) > PARALLEL_COS
        rows.append(a[parallel])
        columns.append(b[parallel])
    row, column = np.concatenate(rows), np.concatenate(columns)
    return [group for group in members(pieces(np.column_stack([row, column]), k)) if len(group) >= BENDS_LEAST]


def _circles(bends: Bends, strip: Ints) -> list[Ints]:
    """Part a strip into bends whose edges lie on one circle each: a bore may run into a tangent wall.

    Every circle through three bends in a row of a seeded sample is tried, and the one that most bends share
    is taken, until too few are left (random sample consensus, Fischler and Bolles 1981).
    """
    axis = bends.direction[strip[int(np.argmax(bends.length_mm[strip]))]]
    points = bends.middle_mm[strip] @ across(axis).T
    chosen: list[Ints] = []
    left = np.arange(len(strip))
    rng = np.random.default_rng(len(strip))
    while len(left) >= BENDS_LEAST and len(chosen) < CIRCLES_MOST:
        centre, radius = circle(points[left])
        best = left[_near(points[left], centre, radius)]
        if len(best) < len(left):
            for _ in range(TRIALS):
                three = points[rng.choice(left, 3, replace=False)]
                if abs(np.linalg.det(np.column_stack([three, np.ones(3)]))) < 1e-9:
                    continue
                centre, radius = circle(three)
                on = left[_near(points[left], centre, radius)]
                best = on if len(on) > len(best) else best
        if len(best) < BENDS_LEAST:
            break
        chosen.append(strip[best])
        left = np.setdiff1d(left, best)
    return chosen


def _near(points: Floats, centre: Floats, radius: float) -> NDArray[np.bool_]:
    """Return which points lie on a circle."""
    off = np.abs(np.linalg.norm(points - centre, axis=1) - radius)
    near: NDArray[np.bool_] = off <= 2.0 * max(ROUND_MM, ROUND_SHARE * radius)
    return near


def _slack_mm(radius: float, noise: float) -> float:
    """Return how far a corner may lie off the circle."""
    return max(ROUND_MM, ROUND_SHARE * radius, NOISES * noise)


def _fitted(solid: Solid, facets: Facets, faces: Ints, noise: float) -> Cylinder | None:
    """Fit a cylinder to some faces; None where their corners do not lie on one, or it is a boss."""
    first, second = (solid.corners_mm[faces][:, k] - solid.corners_mm[faces][:, 0] for k in (1, 2))
    weight = np.linalg.norm(np.cross(first, second), axis=1)
    leaning = facets.normals[faces]
    axis = np.linalg.eigh((leaning * weight[:, None]).T @ leaning)[1][:, 0]  # the normals vary least along it
    faces = faces[np.abs(leaning @ axis) < WALL_LEAN]
    if len(faces) < BENDS_LEAST:
        return None
    frame = across(axis)
    corners = solid.corners_mm[faces]
    flat = corners.reshape(-1, 3) @ frame.T
    centre, radius = circle(flat)
    off = np.abs(np.linalg.norm(flat - centre, axis=1) - radius).reshape(-1, 3).max(axis=1)
    on = off <= _slack_mm(radius, noise)
    if on.sum() < BENDS_LEAST or on.mean() < 0.5:
        return None
    if not on.all():  # a tangent wall took part in the sample: once more without it
        return _fitted(solid, facets, faces[on], noise)
    faces = _grown(solid, facets, faces, axis, centre @ frame, _slack_mm(radius, noise), radius)
    corners, normals = solid.corners_mm[faces], facets.normals[faces]
    flat = corners.reshape(-1, 3) @ frame.T
    inward = np.einsum("ij,ij->i", (centre - flat.reshape(-1, 3, 2)[:, 0]) @ frame, normals)
    if np.median(inward) <= 0.0:  # normals point away from the axis: a boss
        return None
    along = corners @ axis
    low, high = float(along.min()), float(along.max())
    if high - low < 4.0 * radius and _goes_on(solid, facets, faces, axis):
        return None
    return Cylinder(
        axis=axis,
        centre=centre @ frame + float(along.mean()) * axis,
        radius_mm=radius,
        flat_mm=float(np.min(inward[inward > 0]) if noise == 0.0 else np.median(inward)),
        low=low,
        high=high,
        turn=turn(flat.reshape(-1, 3, 2) - centre),
        facet_angles=_angles(normals @ frame.T)
        if noise == 0.0
        else _angles(_rim(solid.vertices_mm[np.unique(solid.faces[faces])], axis, noise) @ frame.T - centre),
        whole=whole(flat - centre, along.ravel()),
    )


def _angles(across_mm: Floats) -> Floats:
    """Return the directions of plane vectors, in degrees."""
    degrees: Floats = np.degrees(np.arctan2(across_mm[:, 1], across_mm[:, 0])) % 360.0
    return degrees


def _rim(vertices: Floats, axis: Floats, noise: float) -> Floats:
    """Return the vertices of the lower rim: as many as there are facets."""
    along = vertices @ axis
    rim: Floats = vertices[along < along.min() + 4 * NOISES * noise]
    return rim


def _grown(
    solid: Solid, facets: Facets, faces: Ints, axis: Floats, centre: Floats, slack: float, radius: float
) -> Ints:
    """Return the faces and all that are joined to them on the same cylinder, however they are triangulated."""
    away = solid.vertices_mm - centre
    off = np.abs(np.linalg.norm(away - (away @ axis)[:, None] * axis, axis=1) - radius)
    on = (off <= slack)[solid.faces].all(axis=1)
    on &= np.abs(facets.normals @ axis) < WALL_LEAN
    on[faces] = True
    both = facets.pairs[on[facets.pairs].all(axis=1)]
    label = pieces(both, len(solid.faces))
    return np.flatnonzero(on & np.isin(label, np.unique(label[faces])))


def _goes_on(solid: Solid, facets: Facets, faces: Ints, axis: Floats) -> bool:
    """Return whether the surface goes on smoothly at an end: a ring of a ball or a segment of a curved channel."""
    inside = np.zeros(len(solid.faces), dtype=bool)
    inside[faces] = True
    rim = inside[facets.pairs].sum(axis=1) == 1
    edge = solid.vertices_mm[facets.edges[rim, 1]] - solid.vertices_mm[facets.edges[rim, 0]]
    length = np.linalg.norm(edge, axis=1)
    across = np.abs(edge @ axis) < 0.5 * length
    pair = facets.pairs[rim]
    outside = np.where(inside[pair[:, 0]], pair[:, 1], pair[:, 0])
    leaves = np.abs(facets.normals[outside] @ axis) > WALL_LEAN  # else it is more of the same cylinder
    smooth = leaves & (facets.angle_rad[rim] < SMOOTH_RAD)
    return float(length[across & smooth].sum()) > 0.3 * float(length[across].sum()) > 0.0
