"""Walls seen from edges and corners that point inwards: a pocket's corner, a groove's bottom, a drill's point."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.survey.walls.nearest import Wanted, nearest
from planner.survey.walls.solid_for_walls import BEND_RAD, Pairs, Shape

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

STEP_MM, STEPS_MOST = 0.4, 30_000
"""Distance of samples along inner edges, and from how many on only the sharpest near each other are taken."""
ALONG, ACROSS = 0.35, 0.02
"""Sines by which the way to the other side may lean along the edge, and back into its own faces."""
CORNER = 0.05
ROUNDS = 3
SEEN, SLID = 1e-3, 1e-4


def from_inner_edges(shape: Shape) -> Pairs:
    """Return the matter between inner edges or corners and the nearest surface in front of them, within the reach.

    A point of an inner edge is as near as any point about it where the way to the other side leads back along
    neither face; the same holds for a corner and all edges that leave it (first-order condition of a minimum).
    """
    starts, face, wanted, ends = edge_samples(shape)
    inward = -wanted.direction[wanted.first[:-1]]  # where a straight ray ends, the nearest is no farther
    free, _ = shape.free_mm(starts + shape.lift_mm * inward, inward)
    reach = np.where(np.isfinite(free), np.minimum(shape.reach_mm, 1.01 * free + 2 * shape.lift_mm), 0.0)
    found = nearest(shape.tree, starts, starts, wanted, reach)
    there, distance, good = found.point_mm, found.distance_mm, found.face >= 0
    rows = np.flatnonzero(good)
    for _ in range(ROUNDS):  # slide along the edge to the foot of what was found, and look again
        along = ends[rows, 1] - ends[rows, 0]
        length = np.maximum(np.einsum("ij,ij->i", along, along), 1e-300)
        foot = np.clip(np.einsum("ij,ij->i", there[rows] - ends[rows, 0], along) / length, 0.0, 1.0)
        moved = ends[rows, 0] + foot[:, None] * along
        slid = np.linalg.norm(there[rows] - moved, axis=1)
        nearer = slid < distance[rows] * (1.0 - SLID)
        rows, moved, slid = rows[nearer], moved[nearer], slid[nearer]
        starts[rows], distance[rows] = moved, slid
        found = nearest(shape.tree, moved, moved, wanted.of(rows), slid * (1.0 + SLID))
        again = found.face >= 0
        good[rows[~again]] = False  # where it slid to, it lies in no wanted direction
        there[rows[again]], distance[rows[again]] = found.point_mm[again], found.distance_mm[again]
        rows = rows[again]
    rows = np.flatnonzero(good)
    here, there, distance = starts[rows], there[rows], distance[rows]
    way = (there - here) / np.maximum(distance, 1e-12)[:, None]
    lift = np.minimum(shape.lift_mm, 0.1 * distance)
    free, _ = shape.free_mm(here + lift[:, None] * way, way)
    seen = free + lift > distance * (1.0 - SEEN) - shape.lift_mm
    pairs = Pairs(
        here=here,
        there=there,
        toward=-way,
        opposite=way,
        thickness_mm=distance,
        area_mm2=np.zeros(len(here)),
        face=face[rows],
        inner=np.ones(len(here), dtype=bool),
    )
    return pairs.only(seen)


def edge_samples(shape: Shape) -> tuple[Floats, Ints, Wanted, Floats]:
    """Return points on inner edges and corners, a face of each, wanted directions, and the ends of their edges."""
    edges, points = shape.edges, shape.solid.vertices_mm
    apart_mm = float(np.sqrt(shape.areas_mm2.sum() / STEPS_MOST))
    sharp = np.flatnonzero(edges.bend_rad > BEND_RAD)
    if len(sharp) > STEPS_MOST:
        sharp = sharp[_sharpest(points[edges.ends[sharp, 0]], edges.bend_rad[sharp], apart_mm)]
    ends = points[edges.ends[sharp]]
    length = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1)
    step = max(STEP_MM, float(length.sum()) / STEPS_MOST)
    count = np.maximum(1, np.ceil(length / step)).astype(np.int64)
    which = np.repeat(np.arange(len(sharp)), count)
    share = (np.arange(len(which)) - np.repeat(np.cumsum(count) - count, count) + 0.5) / count[which]
    on_edges = ends[which, 0] + share[:, None] * (ends[which, 1] - ends[which, 0])
    edge_ways, edge_most = _edge_ways(shape, sharp)
    corners = np.flatnonzero(shape.inner_corners)
    if len(corners) > STEPS_MOST:
        corners = corners[_sharpest(points[corners], shape.spread_rad[corners], apart_mm)]
    corner_first, corner_ways, corner_face = _corner_ways(shape, corners)
    k = edge_ways.shape[1]
    first = np.concatenate([np.arange(len(which) + 1) * k, len(which) * k + corner_first[1:]])
    wanted = Wanted(
        first=first.astype(np.int64),
        direction=np.concatenate([edge_ways[which].reshape(-1, 3), corner_ways]),
        most=np.concatenate([np.tile(edge_most, len(which)), _corner_most(corner_first)]),
        ahead=np.zeros((len(which) + len(corners), 3)),
    )
    own = points[corners]
    return (
        np.concatenate([on_edges, own]),
        np.concatenate([edges.faces[sharp[which], 0], corner_face]),
        wanted,
        np.concatenate([ends[which], np.stack([own, own], axis=1)]),
    )


def _sharpest(points: Floats, bend_rad: Floats, cell_mm: float) -> Ints:
    """Return the sharpest in each cell of a grid: a fine scan's noise bends edges everywhere, one beside the other."""
    cell = np.floor((points - points.min(axis=0)) / cell_mm).astype(np.int64) + 1
    size = cell.max(axis=0) + 1
    key = (cell[:, 0] * size[1] + cell[:, 1]) * size[2] + cell[:, 2]
    order = np.lexsort((-bend_rad, key))
    first: Ints = np.sort(order[np.diff(key[order], prepend=-1) > 0])
    return first


def _edge_ways(shape: Shape, sharp: Ints) -> tuple[Floats, Floats]:
    """Return the directions that count against an edge, (e, 5, 3): outward, along it twice, and into its faces."""
    edges = shape.edges
    ends = shape.solid.vertices_mm[edges.ends[sharp]]
    along = ends[:, 1] - ends[:, 0]
    along /= np.maximum(np.linalg.norm(along, axis=1, keepdims=True), 1e-12)
    into = []
    for side in range(2):
        face = edges.faces[sharp, side]
        inward = np.cross(shape.normals[face], along)
        middle = shape.solid.corners_mm[face].mean(axis=1) - ends[:, 0]
        into.append(inward * np.where(np.einsum("ij,ij->i", inward, middle) < 0, -1.0, 1.0)[:, None])
    mean = shape.normals[edges.faces[sharp]].sum(axis=1)
    mean /= np.maximum(np.linalg.norm(mean, axis=1, keepdims=True), 1e-12)
    return np.stack([mean, along, -along, *into], axis=1), np.array([0.0, ALONG, ALONG, ACROSS, ACROSS])


def _corner_ways(shape: Shape, corners: Ints) -> tuple[Ints, Floats, Ints]:
    """Return each corner's mean normal and the edges that leave it as unit vectors: first of each, all, and a face."""
    faces, points = shape.solid.faces, shape.solid.vertices_mm
    number = np.full(len(points), -1, np.int64)
    number[corners] = np.arange(len(corners))
    mean, face = np.zeros((len(corners), 3)), np.zeros(len(corners), np.int64)
    owner, ways = [np.arange(len(corners))], []
    for k in range(3):
        mine = np.flatnonzero(number[faces[:, k]] >= 0)
        who = number[faces[mine, k]]
        np.add.at(mean, who, shape.normals[mine])
        face[who] = mine
        way = points[faces[mine, (k + 1) % 3]] - points[faces[mine, k]]
        ways.append(way / np.maximum(np.linalg.norm(way, axis=1, keepdims=True), 1e-12))
        owner.append(who)
    mean /= np.maximum(np.linalg.norm(mean, axis=1, keepdims=True), 1e-12)
    owners = np.concatenate(owner)
    order = np.argsort(owners, kind="stable")
    first = np.concatenate([[0], np.cumsum(np.bincount(owners, minlength=len(corners)))])
    return first.astype(np.int64), np.concatenate([mean, *ways])[order], face


def _corner_most(first: Ints) -> Floats:
    """Return the limit of every corner's direction: outward none, along its edges a little."""
    most = np.full(int(first[-1]), CORNER)
    most[first[:-1]] = 0.0
    return most
