"""Run-outs: matter that ends at its own sharp edge or point. It prints rounded off, and is no wall."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from planner.survey.bores.around_axis import vec3
from planner.survey.walls.run_out import RunOut
from planner.survey.walls.solid_for_walls import Pairs, Shape

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SHARP_RAD = float(np.radians(65.0))
"""An edge with this much matter in it or less is sharp; walls have their sides within 60 degrees of opposed."""
END_RAD = float(np.radians(80.0))
"""Matter may thin out toward edges up to this: facets of a round rim are now sharper, now blunter."""
LEAST_LEAN_RAD = float(np.radians(0.3))
"""Sides nearer to parallel than this do not run out."""
STEEP_RAD = float(np.radians(20.0))
"""Sides that lean more than this run out, even where a narrow face cuts their edge off."""
STEP_MM, STEPS_MOST = 0.3, 30_000
APEXES = 4.0
"""A curved side reaches its edge within this many times the distance at which its tangent does."""
THINS = ((0.5, 0.85), (0.75, 0.65), (0.95, 0.35))
"""On the way to the edge the matter is no more than this share of what it was: a wedge has 0.50, 0.25, 0.05."""
INSIDE = 2e-3
SOON = 1.4
BLURRED = 200.0
"""Matter thinner than this many steps of the rays' precision, just before a sharp edge, has no measure left."""
LONGEST_N = 12


def running_out(shape: Shape, pairs: Pairs) -> NDArray[np.bool_]:
    """Return which pairs lie in matter that only thins out toward its own edge."""
    pairs = _off_ends(shape, pairs)
    lean = pairs.lean_rad
    out = np.zeros(len(pairs), dtype=bool)
    rows = np.flatnonzero((lean > LEAST_LEAN_RAD) & ~pairs.inner)
    apex = pairs.thickness_mm[rows] / (2.0 * np.tan(lean[rows] / 2.0))
    thinward = pairs.toward[rows] + pairs.opposite[rows]
    thinward /= np.maximum(np.linalg.norm(thinward, axis=1, keepdims=True), 1e-12)
    steep = np.flatnonzero(lean[rows] > STEEP_RAD)
    some = pairs.only(rows[steep])
    ends_soon = np.ones(len(some), dtype=bool)
    for side, outward in ((some.here, some.toward), (some.there, some.opposite)):
        flat = thinward[steep] - np.einsum("ij,ij->i", thinward[steep], outward)[:, None] * outward
        flat /= np.maximum(np.linalg.norm(flat, axis=1, keepdims=True), 1e-12)
        free, _ = shape.free_mm(side - INSIDE * some.thickness_mm[:, None] * outward, flat)
        ends_soon &= free < SOON * apex[steep]  # past a neck the matter goes on along one side or the other
    out[rows[steep]] = ends_soon
    near, one, other = _sharp_points(shape)
    if not len(near):
        return out
    rest = ~out[rows]
    rows, apex, thinward = rows[rest], apex[rest], thinward[rest]
    most = _longest(apex, shape)
    away, which = cKDTree(near).query(pairs.middle[rows], k=[1, 2, 3], distance_upper_bound=most, workers=1)
    close = np.flatnonzero(away[:, 0] <= APEXES * apex + STEP_MM)
    which, rows, apex, thinward = which[close], rows[close], apex[close], thinward[close]
    middle = pairs.middle[rows]
    which = np.where(which < len(near), which, which[:, :1])  # fewer than three within reach
    along = other[which] - one[which]
    share = np.einsum("ijk,ijk->ij", middle[:, None] - one[which], along)
    share /= np.maximum(np.einsum("ijk,ijk->ij", along, along), 1e-300)
    ends = one[which] + np.clip(share, 0.0, 1.0)[:, :, None] * along
    lengths = np.linalg.norm(ends - middle[:, None], axis=2)
    first, everyone = np.argmin(lengths, axis=1), np.arange(len(rows))
    end, length = ends[everyone, first], lengths[everyone, first]
    blur = BLURRED * shape.lift_mm
    close = length <= APEXES * apex + blur
    out[rows[close & (pairs.thickness_mm[rows] < blur)]] = True
    ahead = close & (np.einsum("ij,ij->i", end - middle, thinward) > 0.5 * length)
    rows, end = rows[ahead], end[ahead]
    out[rows] |= _thins_to(shape, pairs, rows, end, pairs.here) | _thins_to(shape, pairs, rows, end, pairs.there)
    return out


def _off_ends(shape: Shape, pairs: Pairs) -> Pairs:
    """Return pairs moved a little along the edge that their sides lean to, toward the middles of their triangles.

    On the rim of an end face, as at the foot of a tooth's flank, rays along the matter would graze that face.
    """
    along = np.cross(pairs.toward, pairs.opposite)
    along /= np.maximum(np.linalg.norm(along, axis=1, keepdims=True), 1e-12)
    way = np.einsum("ij,ij->i", shape.solid.corners_mm[pairs.face].mean(axis=1) - pairs.here, along)
    step = np.sign(way) * np.minimum(np.abs(way), 2.0 * INSIDE * pairs.thickness_mm)
    return replace(pairs, here=pairs.here + step[:, None] * along, there=pairs.there + step[:, None] * along)


def _longest(apex: Floats, shape: Shape) -> float:
    """Return how far an edge may lie from any of the pairs."""
    return float(min(APEXES * apex.max(initial=0.0) + STEP_MM, np.linalg.norm(shape.solid.size_mm))) + 1e-9


def _thins_to(shape: Shape, pairs: Pairs, rows: Ints, end: Floats, side: Floats) -> NDArray[np.bool_]:
    """Return whether the matter thins all along the surface from one side of each pair to its end."""
    into = pairs.middle[rows] - side[rows]
    into /= np.maximum(np.linalg.norm(into, axis=1, keepdims=True), 1e-12)
    thick = pairs.thickness_mm[rows]
    start = side[rows] + INSIDE * thick[:, None] * into
    way = end - start
    length = np.linalg.norm(way, axis=1)
    free, _ = shape.free_mm(start, way / np.maximum(length, 1e-12)[:, None])
    thins: NDArray[np.bool_] = free > 0.9 * length
    for share, most in THINS:
        point = start + share * way
        forth, face = shape.free_mm(point, into)
        ends_there = (face >= 0) & (np.einsum("ij,ij->i", shape.normals[face], into) > 0)
        thins &= ~ends_there | (forth < most * thick)
    return thins


def _sharp_points(shape: Shape) -> tuple[Floats, Floats, Floats]:
    """Return points along all sharp edges with the ends of their edges, and all sharp points, each (k, 3)."""
    edges, points = shape.edges, shape.solid.vertices_mm
    sharp = edges.bend_rad < END_RAD - np.pi
    ends = points[edges.ends[sharp]]
    length = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1)
    step = max(STEP_MM, float(length.sum()) / STEPS_MOST)
    count = np.maximum(1, np.ceil(length / step)).astype(np.int64)
    which = np.repeat(np.arange(len(ends)), count)
    share = (np.arange(len(which)) - np.repeat(np.cumsum(count) - count, count) + 0.5) / count[which]
    along = ends[which, 0] + share[:, None] * (ends[which, 1] - ends[which, 0])
    spikes = points[_spikes(shape)]
    return (
        np.concatenate([along, spikes]),
        np.concatenate([ends[which, 0], spikes]),
        np.concatenate([ends[which, 1], spikes]),
    )


def _spikes(shape: Shape) -> Ints:
    """Return the vertices where faces meet in a sharp point: none bends inwards, and their normals nearly cancel."""
    edges, faces, corners = shape.edges, shape.solid.faces, shape.solid.corners_mm
    total, weight = np.zeros((len(shape.solid.vertices_mm), 3)), np.zeros(len(shape.solid.vertices_mm))
    for k in range(3):
        one, other = corners[:, (k + 1) % 3] - corners[:, k], corners[:, (k + 2) % 3] - corners[:, k]
        angle = np.arctan2(np.linalg.norm(np.cross(one, other), axis=1), np.einsum("ij,ij->i", one, other))
        np.add.at(total, faces[:, k], angle[:, None] * shape.normals)
        np.add.at(weight, faces[:, k], angle)
    mean = np.linalg.norm(total, axis=1) / np.maximum(weight, 1e-12)
    inner = np.zeros(len(mean), dtype=bool)
    inner[edges.ends[edges.bend_rad > np.radians(1.0)].reshape(-1)] = True
    return np.flatnonzero((weight > 0) & ~inner & (mean < np.sin(SHARP_RAD / 2.0)))


def run_outs_of(shape: Shape) -> tuple[RunOut, ...]:
    """Return the sharp edges of a solid, joined where they meet, the longest first."""
    edges, points = shape.edges, shape.solid.vertices_mm
    sharp = np.flatnonzero(edges.bend_rad < SHARP_RAD - np.pi)
    if not len(sharp):
        return ()
    ends = edges.ends[sharp]
    n = len(points)
    graph = coo_matrix((np.ones(len(ends)), (ends[:, 0], ends[:, 1])), shape=(n, n))
    piece = connected_components(graph, directed=False)[1]
    _, chain = np.unique(piece[ends[:, 0]], return_inverse=True)
    length = np.linalg.norm(points[ends[:, 1]] - points[ends[:, 0]], axis=1)
    total = np.bincount(chain, weights=length)
    found = []
    for number in np.argsort(-total, kind="stable")[:LONGEST_N]:
        mine = sharp[chain == number]
        least = mine[int(np.argmin(edges.bend_rad[mine]))]
        outward = shape.normals[edges.faces[mine]].reshape(-1, 3)
        found.append(
            RunOut(
                angle_deg=float(np.degrees(np.pi + edges.bend_rad[least])),
                length_mm=float(total[number]),
                at_mm=vec3(points[edges.ends[least]].mean(axis=0)),
                outward=tuple(dict.fromkeys(vec3(np.round(normal, 2) + 0.0) for normal in outward))[:LONGEST_N],
            )
        )
    return tuple(found)
