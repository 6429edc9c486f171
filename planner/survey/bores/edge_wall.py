"""Matter beside a bore: from its wall, all round and up to both rims, to the nearest face that looks away from it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from planner.survey.bores.around_axis import across, vec3
from planner.survey.bores.facets import distinct
from planner.survey.survey import Bore
from planner.survey.walls.nearest import FREE_COS, Wanted, nearest
from planner.survey.walls.run_outs import THINS
from planner.survey.walls.solid_for_walls import Shape
from planner.survey.walls.triangle_tree import tree_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

OPPOSED_COS = 0.72
"""Matter beside a bore ends at a face within 44 degrees of facing away from it: no chamfer of 45, and no shell."""
NEAR_COS = 0.82
"""Beside the straight way out, faces within 35 degrees of it are looked for."""
REACH_MM = 6.0
"""Up to this distance the nearest face is looked for; matter thicker than this is measured straight out."""
ROUNDS, STATIONS, STATIONS_MOST, STEP_MM = 96, 9, 48, 1.5
GAP_DEG = 35.0
"""Corners of a wall that lie further apart round the axis have an opening between them."""
RIM = 1e-3
"""Points keep this share of the radius off the rim, and lie this much outside the wall."""
SHARP_RAD = float(np.radians(65.0))
SEEN = 0.01
BACK_MM, GROWS = 0.3, 1.01
"""Matter that runs out is thicker by more than this so far on the way from its edge."""
SAME_SIDE = 0.5
"""The nearest way to a side that leans by 60 degrees is this much of the one straight out: it ends at that side too."""
LIP_MM, LIP_STEEP = 0.15, 1.0
"""A face that ends this soon, as high as a layer at most, is a lip and no side of a wall: this much higher or
deeper the matter goes on past it, more than any face does that counts."""


def with_edges(shape: Shape, bores: tuple[Bore, ...]) -> tuple[Bore, ...]:
    """Return the bores with the least matter beside each, and where it is."""
    return tuple(_with_edge(shape, bore) for bore in bores)


def _with_edge(shape: Shape, bore: Bore) -> Bore:
    """Return one bore with its least matter, outward from the circle through its corners; None where there is none."""
    wall = _wall_faces(shape, bore)
    starts, outward, rims = _starts(shape, bore, wall)
    lift = RIM * bore.drawn_diameter_mm / 2
    # Only points in the matter just outside the wall count: the way back meets the wall at once, from inside.
    back, own = shape.free_mm(starts, -outward)
    inside = (own >= 0) & (np.abs(back - lift) < lift + 0.01 + 0.005 * bore.drawn_diameter_mm)
    inside &= np.einsum("ij,ij->i", shape.normals[own], outward) < 0
    starts, outward, rims = starts[inside], outward[inside], rims[inside]
    if not len(starts):
        return replace(bore, edge_wall_mm=None, edge_at_mm=None)
    mouths = _mouths(shape, wall)
    ahead = shape.free_mm(starts, outward)
    straight, there = _straight(shape, mouths, starts, outward, ahead)
    straight[_lips(shape, bore, there, outward, np.isfinite(straight))] = np.inf
    near, beside = _nearest(shape, mouths, starts, outward, np.array(bore.axis), wall, ahead, float(straight.min()))
    near[_lips(shape, bore, beside, outward, np.isfinite(near))] = np.inf
    wedge = _wedges(shape, starts, outward, rims, ahead)
    near[wedge & (near > SAME_SIDE * ahead[0])] = np.inf
    straight[wedge] = np.inf
    distance, ends = np.minimum(straight, near), np.where((straight <= near)[:, None], there, beside)
    best = int(np.argmin(distance))
    if not np.isfinite(distance[best]):
        return replace(bore, edge_wall_mm=None, edge_at_mm=None)
    return replace(bore, edge_wall_mm=float(distance[best]) + lift, edge_at_mm=vec3((starts[best] + ends[best]) / 2))


Ways = tuple[Floats, Floats]
"""Distances (k,), infinite where there is no way, and where each ends (k, 3)."""


def _lips(shape: Shape, bore: Bore, ends: Floats, outward: Floats, some: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Return which ways, among some, end at a mere lip: a little higher or deeper the matter goes on past it."""
    axis, lip = np.array(bore.axis), min(LIP_MM, bore.depth_mm / 4)
    rows = np.flatnonzero(some)
    lips = np.zeros(len(some), dtype=bool)
    for along in (-lip, lip):  # beside an opening that crosses, the matter that goes on lies away from the middle
        past, face = shape.free_mm(ends[rows] + along * axis - SEEN * lip * outward[rows], outward[rows])
        inside = (face >= 0) & (np.einsum("ij,ij->i", shape.normals[face], outward[rows]) > 0.0)
        lips[rows] |= inside & (past > LIP_STEEP * lip)
    return lips


def _wedges(
    shape: Shape, starts: Floats, outward: Floats, rims: Floats, ahead: tuple[Floats, Ints]
) -> NDArray[np.bool_]:
    """Return which ways straight out lie in matter that only thins out toward a rim, as under a round end.

    Seen from there to the rim the matter is ever thinner, and ends in an edge: it runs out and is no wall. Where the
    matter grows no more on the way from the rim, its thickest counts.
    """
    thick, side = ahead
    rows = np.flatnonzero((side >= 0) & (np.einsum("ij,ij->i", shape.normals[side], outward) > 0.0))
    out = np.zeros(len(starts), dtype=bool)
    for rim in (0, 1):
        ways = rims[rows, rim]
        back = -BACK_MM / np.maximum(np.linalg.norm(ways, axis=1), BACK_MM / 10)
        thin = np.ones(len(rows), dtype=bool)
        for share, least, most in ((back, GROWS, np.inf), *((each, 0.0, share) for each, share in THINS)):
            here = rows[thin]
            step = np.broadcast_to(share, thin.shape)[thin, None] * ways[thin]
            free, face = shape.free_mm(starts[here] + step, outward[here])
            ends = (face >= 0) & (np.einsum("ij,ij->i", shape.normals[face], outward[here]) > 0.0)
            thin[thin] = ends & (least * thick[here] <= free) & (free <= most * thick[here])
        out[rows[thin]] = True
    return out


def _straight(shape: Shape, mouths: Ints, starts: Floats, outward: Floats, ahead: tuple[Floats, Ints]) -> Ways:
    """Return the ways straight out that end at a face within 44 degrees of it; ``ahead`` is what rays met."""
    distance, face = ahead
    ends = (face >= 0) & (np.einsum("ij,ij->i", outward, shape.normals[face]) > OPPOSED_COS) & (distance > 0)
    ends[ends] = _no_mouth(shape, mouths, face[ends])
    distance = np.where(ends, distance, np.inf)
    return distance, starts + np.where(ends, distance, 0.0)[:, None] * outward


def _nearest(
    shape: Shape,
    mouths: Ints,
    starts: Floats,
    outward: Floats,
    axis: Floats,
    wall: Ints,
    ahead: tuple[Floats, Ints],
    below_mm: float,
) -> Ways:
    """Return the shortest ways to a face within 35 degrees of outward, or 44 where it lies straight ahead.

    Ways as long as ``below_mm`` or longer do not matter: straight out there is one as short.
    """
    distance, face = ahead
    lean = np.where(face >= 0, np.einsum("ij,ij->i", outward, shape.normals[face]), 0.0)
    cos = np.where(lean > OPPOSED_COS, np.minimum(NEAR_COS, lean * (1 - 1e-9)), NEAR_COS)
    within = np.where(lean > OPPOSED_COS, np.minimum(REACH_MM, np.maximum(distance, 0.0) * (1 + 1e-9)), REACH_MM)
    within = np.minimum(within, below_mm)
    near = _worth_asking(
        shape, axis, wall, mouths, (starts.min(axis=0) - within.max(), starts.max(axis=0) + within.max())
    )
    if not len(near):
        return np.full(len(starts), np.inf), starts.copy()
    chain = shape.chain[shape.solid.faces[near]]
    tree = tree_of(shape.solid.corners_mm[near], shape.normals[near], shape.straight_cos[near], chain)
    first = np.arange(len(starts) + 1)
    wanted = Wanted(first=first, direction=-outward, most=-cos, ahead=outward / cos[:, None])
    found = nearest(tree, starts, starts, wanted, within)
    rows = np.flatnonzero(found.face >= 0)
    way = (found.point_mm[rows] - starts[rows]) / found.distance_mm[rows, None]
    free, _ = shape.free_mm(starts[rows], way)
    rows = rows[free > (1.0 - SEEN) * found.distance_mm[rows]]
    ways = np.full(len(starts), np.inf)
    ways[rows] = found.distance_mm[rows]
    return ways, found.point_mm


def _worth_asking(shape: Shape, axis: Floats, wall: Ints, mouths: Ints, box: tuple[Floats, Floats]) -> Ints:
    """Return the triangles in a box that may end the matter beside a bore; a plate's own faces are not among them.

    Faces that look too far along the axis count only where an edge or a corner of theirs points inwards; the bore's
    own wall and its corners lie behind all points beside it.
    """
    near = shape.reached(*box)
    near = near[_no_mouth(shape, mouths, near)]
    faces, points = shape.solid.faces, shape.solid.vertices_mm
    corner = faces[near]
    own = np.isin(corner, faces[wall])
    inner = shape.straight_cos[near] <= FREE_COS
    reached = ((points[corner] >= box[0]) & (points[corner] <= box[1])).all(axis=2)
    asked = (inner[:, :3] & ~own & reached).any(axis=1)
    asked |= (inner[:, 3:] & ~(own & np.roll(own, -1, axis=1))).any(axis=1)
    across_it = np.linalg.norm(shape.normals[near] @ across(axis).T, axis=1) >= OPPOSED_COS - 1e-6
    worth: Ints = near[asked | (across_it & ~np.isin(near, wall))]
    return worth


def _wall_faces(shape: Shape, bore: Bore) -> Ints:
    """Return the triangles of a bore's wall: their corners on its circle, facing its axis."""
    axis, centre, radius = np.array(bore.axis), np.array(bore.centre_mm), bore.drawn_diameter_mm / 2
    faces = shape.reached(*box_of(bore, 0.02 + 0.005 * radius))
    away = shape.solid.corners_mm[faces] - centre
    along = away @ axis
    off = np.abs(np.linalg.norm(away - along[:, :, None] * axis, axis=2) - radius)
    on = (off < 0.01 + 0.005 * radius) & (np.abs(along) < bore.depth_mm / 2 + 0.02)
    faces = faces[on.all(axis=1)]
    middle = shape.solid.corners_mm[faces].mean(axis=1) - centre
    middle -= (middle @ axis)[:, None] * axis
    inward = np.einsum("ij,ij->i", middle, shape.normals[faces]) < -0.8 * np.linalg.norm(middle, axis=1)
    wall: Ints = faces[inward]
    return wall


def _starts(shape: Shape, bore: Bore, wall: Ints) -> tuple[Floats, Floats, Floats]:
    """Return points just outside a bore's wall, from rim to rim at many angles, and the directions outward there.

    Third the ways (k, 2, 3) from each point to both rims.
    """
    axis, centre, radius = np.array(bore.axis), np.array(bore.centre_mm), bore.drawn_diameter_mm / 2
    x, y = across(axis)
    away = shape.solid.vertices_mm[np.unique(shape.solid.faces[wall])] - centre
    if not len(away):
        return np.empty((0, 3)), np.empty((0, 3)), np.empty((0, 2, 3))
    degrees = np.round(np.degrees(np.arctan2(away @ y, away @ x)), 1) % 360.0
    corner, which = np.unique(degrees, return_inverse=True)
    low, high = np.full(len(corner), np.inf), np.full(len(corner), -np.inf)
    np.minimum.at(low, which, away @ axis)
    np.maximum.at(high, which, away @ axis)
    corner, low, high = corner[high > low], low[high > low], high[high > low]
    if not len(corner):
        return np.empty((0, 3)), np.empty((0, 3)), np.empty((0, 2, 3))
    angle = np.union1d(corner, np.arange(ROUNDS) * 360.0 / ROUNDS)
    before = (angle[:, None] - corner[None, :]) % 360.0
    gap = before.min(axis=1) + ((-before) % 360.0).min(axis=1)
    angle = angle[gap < GAP_DEG]
    inset = RIM * radius
    first = np.interp(angle, corner, low, period=360.0) + inset
    last = np.interp(angle, corner, high, period=360.0) - inset
    stations = int(np.clip(np.ceil(bore.depth_mm / STEP_MM), STATIONS, STATIONS_MOST))
    share = np.linspace(0.0, 1.0, stations)
    heights = (first[:, None] + share * (last - first)[:, None]).reshape(-1)
    turn = np.repeat(np.radians(angle), stations)
    outward = np.cos(turn)[:, None] * x + np.sin(turn)[:, None] * y
    rims = np.stack([np.repeat(end, stations) - heights for end in (first, last)], axis=1)[:, :, None] * axis
    return centre + heights[:, None] * axis + (1.0 + RIM) * radius * outward, outward, rims


def box_of(bore: Bore, beyond_mm: float) -> tuple[Floats, Floats]:
    """Return the least and greatest coordinates of a bore through its corners, and so much beyond."""
    axis = np.abs(np.array(bore.axis))
    half = axis * bore.depth_mm / 2 + np.sqrt(np.maximum(1.0 - axis**2, 0.0)) * bore.drawn_diameter_mm / 2 + beyond_mm
    return np.array(bore.centre_mm) - half, np.array(bore.centre_mm) + half


def _mouths(shape: Shape, wall: Ints) -> Ints:
    """Return a face of each plane that meets the wall in a sharp rim: there the matter only runs out."""
    edges = shape.edges
    own = distinct(shape.edges_of[wall], len(edges.faces))
    faces = edges.faces[own]
    of_wall = np.isin(faces, wall)
    rim = (edges.bend_rad[own] < SHARP_RAD - np.pi) & (of_wall.sum(axis=1) == 1)
    mouths = faces[rim][~of_wall[rim]]
    found = [
        mouths[(shape.normals[mouths] @ normal) > 1 - 1e-6][0]
        for normal in np.unique(np.round(shape.normals[mouths], 6), axis=0)
    ]
    return np.array(found, dtype=np.int64)


def _no_mouth(shape: Shape, mouths: Ints, faces: Ints) -> NDArray[np.bool_]:
    """Return which of some faces lie in none of the planes of a bore's mouths."""
    keep = np.ones(len(faces), dtype=bool)
    for mouth in mouths:
        normal = shape.normals[mouth]
        on = np.abs((shape.solid.corners_mm[faces] - shape.solid.corners_mm[mouth, 0]) @ normal).max(axis=1)
        keep &= ~((on < SEEN) & (shape.normals[faces] @ normal > 1 - 1e-4))
    return keep
