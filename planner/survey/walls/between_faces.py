"""Walls seen from the faces: the ball that touches a face at a sample and the surface on the other side."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.survey.walls.nearest import cone, nearest
from planner.survey.walls.solid_for_walls import Pairs, Shape

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SAMPLES_N = 30_000
"""Samples on a whole part, besides three near the corners of every triangle."""
CORNERS_MOST = 60_000
"""With more triangles than this, their corners lie so close that one sample each is enough."""
SHARED_FROM = 250_000
"""With more triangles than this, small neighbours share a sample: one for each such part of the surface."""
NEAR_CORNER = 0.01
"""Barycentric distance of corner samples from the triangle's sides."""
CONE_COS = float(np.cos(np.radians(30.0)))
"""The ball's other contact lies within 30 degrees of straight through: its sides are within 60 of opposed."""
PARALLEL_COS = float(np.cos(np.radians(20.0)))
NEARLY_ACROSS = 0.1
ROD_SHARE = 0.15
"""So much of what planes would add to the way straight through is left to the facets of a rod."""
ROUNDS = 10
TOUCH = 1e-5


def samples(shape: Shape) -> tuple[Floats, Ints, Floats]:
    """Return points (n, 3) on all faces, their faces (n,) and the area each stands for (n,)."""
    areas = shape.areas_mm2
    total, m = float(areas.sum()), len(areas)
    count = np.maximum(1, np.ceil(areas / total * SAMPLES_N)).astype(np.int64) if total > 0 else np.ones(m, int)
    if m > SHARED_FROM:
        stand_in = stand_ins(shape)
        areas = np.asarray(np.bincount(stand_in, weights=areas, minlength=m), dtype=np.float64)
        count[stand_in != np.arange(m)] = 0
    points, face = lattice(shape.solid.corners_mm, count)
    weight = (areas / np.maximum(count, 1))[face]
    if m > CORNERS_MOST:
        return points, face, weight
    # Tapering walls are thinnest at a face's border, so each triangle is also sampled near its corners.
    shares = np.full((3, 3), NEAR_CORNER) + np.eye(3) * (1.0 - 3.0 * NEAR_CORNER)
    near = np.einsum("ck,fkx->fcx", shares, shape.solid.corners_mm).reshape(-1, 3)
    return (
        np.concatenate([points, near]),
        np.concatenate([face, np.repeat(np.arange(m), 3)]),
        np.concatenate([weight, np.zeros(len(near))]),
    )


def stand_ins(shape: Shape) -> Ints:
    """Return the triangle whose samples stand for each, (m,): itself, or a near one where triangles are small.

    Along the order of the tree, in which neighbours mostly follow each other, the triangle stands in that takes the
    area past one more share of the surface; those larger than a share all do.
    """
    m, areas = len(shape.areas_mm2), shape.areas_mm2
    order = shape.tree.face if m > SHARED_FROM else np.arange(m)
    if m <= SHARED_FROM or not areas.any():
        return order
    shares = np.floor(np.cumsum(areas[order]) / float(areas.sum()) * SHARED_FROM)
    first = np.diff(shares, prepend=-1.0) > 0.0
    found = np.empty(m, dtype=np.int64)
    found[order] = order[first][np.cumsum(first) - 1]
    return found


def lattice(corners: Floats, count: Ints) -> tuple[Floats, Ints]:
    """Return so many points in each triangle, spread evenly, and the numbers of their triangles."""
    face = np.repeat(np.arange(len(corners)), count)
    within = np.arange(len(face)) - np.repeat(np.cumsum(count) - count, count)
    # A rank-1 lattice (Roberts 2018, the "R2" sequence), folded into the triangle: even, and the same every time.
    u = (0.5 + within * 0.7548776662466927) % 1.0
    v = (0.5 + within * 0.5698402909980532) % 1.0
    over = u + v > 1.0
    u, v = np.where(over, 1.0 - u, u), np.where(over, 1.0 - v, v)
    a, b, c = (corners[face, k] for k in range(3))
    points: Floats = a + u[:, None] * (b - a) + v[:, None] * (c - a)
    return points, face


def between_faces(shape: Shape, points: Floats, face: Ints, area_mm2: Floats) -> Pairs:
    """Return the matter behind samples of faces: within the reach by balls, beyond it between planes.

    Notes
    -----
    The ball that touches the surface at p (normal n) and at q has the diameter ``|p - q|^2 / ((p - q) . n)``
    (geometry). It begins as long as a straight ray is free and shrinks to the nearest contact until none is left
    inside (after Ma, Bae and Choi 2012, doi:10.1007/s00371-011-0594-7). Between planes that lean by phi a ray of
    length d gives ``2 d cos(phi) / (1 + cos(phi))``.
    """
    normals = shape.normals[face]
    free, hit = shape.free_mm(points - shape.lift_mm * normals, -normals)
    free = free + shape.lift_mm
    seen = (hit >= 0) & (free > 0) & (normals != 0.0).any(axis=1)
    cos = np.where(seen, -np.einsum("ij,ij->i", normals, shape.normals[hit]), 0.0)
    thick = np.flatnonzero(seen & (free > shape.reach_mm) & (cos >= PARALLEL_COS))
    thin = np.flatnonzero(seen & (free <= shape.reach_mm))
    diameter, there, opposite = _shrunk(shape, points[thin], normals[thin], free[thin])
    touching = diameter > 0
    thin, diameter, there, opposite = thin[touching], diameter[touching], there[touching], opposite[touching]
    round_ = _straight_through(diameter, free[thin], -np.einsum("ij,ij->i", normals[thin], opposite))
    there[round_] = points[thin[round_]] - free[thin[round_], None] * normals[thin[round_]]
    opposite[round_] = shape.normals[hit[thin[round_]]]
    diameter[round_] = free[thin[round_]]  # as told between these two points
    take = np.concatenate([thin, thick])
    across = 2.0 * free[thick] * cos[thick] / (1.0 + cos[thick])
    return Pairs(
        here=points[take],
        there=np.concatenate([there, points[thick] - free[thick, None] * normals[thick]]),
        toward=normals[take],
        opposite=np.concatenate([opposite, shape.normals[hit[thick]]]),
        thickness_mm=np.concatenate([diameter, across]),
        area_mm2=area_mm2[take],
        face=face[take],
        inner=np.zeros(len(take), dtype=bool),
    )


def _straight_through(diameter_mm: Floats, free_mm: Floats, cos: Floats) -> NDArray[np.bool_]:
    """Return which balls are as wide as the matter straight behind: they touch a rod all round, which leans nowhere.

    Between planes that lean by as much as the ball's contacts do, the way straight through would be longer (``cos`` is
    that of the lean).
    """
    between_planes = (1.0 + cos) / (2.0 * np.maximum(cos, NEARLY_ACROSS))
    longer = free_mm / diameter_mm - 1.0
    rods: NDArray[np.bool_] = (cos < CONE_COS) & (longer < ROD_SHARE * (between_planes - 1.0))
    return rods


def _shrunk(shape: Shape, points: Floats, normals: Floats, free: Floats) -> tuple[Floats, Floats, Floats]:
    """Return the diameter of each ball (0 where nothing opposed touches it), its contact, and the direction there."""
    diameter, there, done = free.copy(), np.zeros_like(points), np.zeros(len(points), dtype=bool)
    active = np.arange(len(points))
    for _ in range(ROUNDS):
        if not len(active):
            break
        radius, p, n = diameter[active] / 2.0, points[active], normals[active]
        found = nearest(shape.tree, p - radius[:, None] * n, p, cone(n, CONE_COS), radius * (1.0 + TOUCH))
        away = p - found.point_mm
        new = np.einsum("ij,ij->i", away, away) / np.maximum(np.einsum("ij,ij->i", away, n), 1e-300)
        touched = found.face >= 0
        there[active[touched]] = found.point_mm[touched]
        settled = touched & (new >= diameter[active] * (1.0 - 2 * TOUCH))
        diameter[active] = np.where(touched, np.minimum(new, diameter[active]), 0.0)
        done[active[settled]] = True
        active = active[touched & ~settled]
    middles = points - diameter[:, None] / 2.0 * normals
    opposite = there - middles
    opposite /= np.maximum(np.linalg.norm(opposite, axis=1, keepdims=True), 1e-12)
    return diameter, there, opposite
