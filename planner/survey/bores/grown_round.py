"""Growing a round over a mesh, compiled: from some triangles to all that are joined to them on it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numba import njit
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.around_axis import across
from planner.survey.bores.facets import BEND_RAD, Facets
from planner.survey.bores.fitted_circles import COARSE, WIDEST, Round

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

LEAN_MOST = 0.5
"""Sine of the lean of a wall's triangle: between staggered rims a coarse shallow bore's lean by up to 30 degrees."""
WALL_LEAN = 0.02
"""Sine of the lean, about one degree, below which a neighbour that nearly lies on a cylinder belongs to it."""
ALONG_COS = 0.9
"""An edge stands along an axis where it leans no more than this, as a cosine."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Surface:
    """What growing reads of a mesh: for every side of a triangle (m, 3) the triangle beyond, -1 for none, and the edge.

    A triangle beyond a sharp bend counts as none. ``thin`` (m,) has no direction of its own.
    """

    vertices: Floats
    faces: Ints
    normals: Floats
    thin: Bools
    beyond: Ints
    start: Ints
    end: Ints


def surface_of(solid: Solid, facets: Facets) -> Surface:
    """Lay out a mesh for growing."""
    pairs = facets.pairs_of
    beyond, start, end = (np.full(pairs.shape, -1, dtype=np.int64) for _ in range(3))
    gentle = pairs >= 0
    gentle[gentle] = facets.angle_rad[pairs[gentle]] < BEND_RAD
    which = pairs[gentle]
    beyond[gentle] = facets.pairs[which].sum(axis=1) - np.nonzero(gentle)[0]
    start[gentle], end[gentle] = facets.edges[which, 0], facets.edges[which, 1]
    return Surface(
        vertices=np.array(solid.vertices_mm, order="C"),  # copies: arrays that cannot be written compile anew
        faces=np.array(solid.faces, dtype=np.int64, order="C"),
        normals=np.ascontiguousarray(facets.normals),
        thin=facets.thin,
        beyond=beyond,
        start=start,
        end=end,
    )


def grown(surface: Surface, free: Bools, found: Round, faces: Ints) -> Ints:
    """Return some triangles and all free ones that are joined to them on the same round, sorted.

    A neighbour is on it where its corners are; where it stands upright beside one across an edge along the axis,
    they may be as far off as a coarse mesh's. ``free`` (m,) is written to on the way and comes back as it was.
    """
    if not len(faces):
        return faces
    slacks = np.array([found.slack_mm, max(found.slack_mm, COARSE.mm(found.radius_mm))])
    reached: Ints = _reached(
        surface.vertices,
        surface.faces,
        surface.normals,
        surface.thin,
        surface.beyond,
        surface.start,
        surface.end,
        free,
        np.ascontiguousarray(found.axis),
        np.ascontiguousarray(found.centre),
        np.ascontiguousarray(across(found.axis)),
        float(found.radius_mm),
        slacks,
        np.ascontiguousarray(found.outline),
        np.ascontiguousarray(found.angle),
        faces,
    )
    free[reached] = True
    return np.sort(reached)


@njit(cache=True, nogil=True, error_model="numpy")
def _reached(
    vertices: Floats,
    faces: Ints,
    normals: Floats,
    thin: Bools,
    beyond: Ints,
    start: Ints,
    end: Ints,
    free: Bools,
    axis: Floats,
    centre: Floats,
    frame: Floats,
    radius: float,
    slacks: Floats,
    outline: Floats,
    angle: Floats,
    first: Ints,
) -> Ints:  # pragma: no cover
    """Return the triangles reached, in the order of a search in breadth; they are free no more."""
    queue = np.empty(max(64, 2 * len(first)), np.int64)
    count = len(first)
    for k in range(count):  # one by one: what numba needs to take a slice for it costs seconds at the first start
        queue[k] = first[k]
        free[first[k]] = False
    place = 0
    while place < count:
        face = queue[place]
        place += 1
        for side in range(3):
            near = beyond[face, side]
            if near < 0 or not free[near]:
                continue
            lean = abs(normals[near, 0] * axis[0] + normals[near, 1] * axis[1] + normals[near, 2] * axis[2])
            on = (lean < LEAN_MOST or thin[near]) and _held(
                vertices, faces[near], centre, frame, radius, slacks[0], outline, angle
            )
            if not on and lean < WALL_LEAN and _stands(vertices[start[face, side]], vertices[end[face, side]], axis):
                on = _held(vertices, faces[near], centre, frame, radius, slacks[1], outline, angle)
            if not on:
                continue
            free[near] = False
            if count == len(queue):
                longer = np.empty(2 * count, np.int64)
                for k in range(count):
                    longer[k] = queue[k]
                queue = longer
            queue[count] = near
            count += 1
    return queue[:count]


@njit(cache=True, nogil=True, error_model="numpy")
def _stands(start: Floats, end: Floats, axis: Floats) -> bool:  # pragma: no cover
    """Return whether an edge stands along an axis."""
    along = square = 0.0
    for k in range(3):
        way = end[k] - start[k]
        along += way * axis[k]
        square += way * way
    return bool(abs(along) > ALONG_COS * np.sqrt(square))


@njit(cache=True, nogil=True, error_model="numpy")
def _held(
    vertices: Floats,
    corners: Ints,
    centre: Floats,
    frame: Floats,
    radius: float,
    slack: float,
    outline: Floats,
    angle: Floats,
) -> bool:  # pragma: no cover
    """Return whether all corners of a triangle lie on a circle, or on a flat of its outline, as ``Round.holds``."""
    n = len(angle)
    for k in range(3):
        x = y = 0.0
        for j in range(3):
            away = vertices[corners[k], j] - centre[j]
            x += away * frame[0, j]
            y += away * frame[1, j]
        if abs(np.sqrt(x * x + y * y) - radius) < slack:
            continue
        after = np.searchsorted(angle, np.arctan2(y, x)) % n
        before = (after - 1) % n
        x1, y1, x2, y2 = outline[before, 0], outline[before, 1], outline[after, 0], outline[after, 1]
        way_x, way_y = x2 - x1, y2 - y1
        length = np.sqrt(way_x * way_x + way_y * way_y)
        off = abs((x - x1) * way_y - (y - y1) * way_x) / max(length, 1e-12)
        if off < slack and length < WIDEST * radius:
            continue
        if min(np.sqrt((x - x1) ** 2 + (y - y1) ** 2), np.sqrt((x - x2) ** 2 + (y - y2) ** 2)) >= slack:
            return False
    return True
