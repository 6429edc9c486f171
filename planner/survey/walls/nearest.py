"""The nearest point of a surface in wanted directions, compiled: a search down a tree of boxes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numba import njit
from numpy.typing import NDArray

from planner.survey.walls.triangle_tree import LEAF_N, Tree

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

AHEAD_COS = 0.5
FREE_COS = float(np.cos(np.radians(11.0)))
"""Edges that bend inwards more than this need not have faces that look the wanted way."""
ROUNDING = 1e-9
"""Of a distance: a box is left out only where it misses a wanted direction by more than rounding."""
FACING = 0.1
"""A surface ends the matter where its normal leans this much (cosine) along the way to it, or more."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Wanted:
    """Directions from each point that count: those with ``way @ direction <= most`` for all of its directions.

    ``first`` (k + 1,) tells where the directions of each point begin; ``direction`` (d, 3) and ``most`` (d,).
    """

    first: Ints
    direction: Floats
    most: Floats
    ahead: Floats
    """Where this (k, 3) is no null vector, its product with a face's normal must be 1 or more; inner edges are free."""

    def of(self, rows: Ints) -> Wanted:
        """Return the directions of some points only."""
        count = np.diff(self.first)[rows]
        start = np.concatenate([[0], np.cumsum(count)])
        take = np.repeat(self.first[:-1][rows] - start[:-1], count) + np.arange(start[-1])
        return Wanted(
            first=start.astype(np.int64), direction=self.direction[take], most=self.most[take], ahead=self.ahead[rows]
        )


def cone(outward: Floats, cos: float) -> Wanted:
    """Return the directions inward within a cone, to faces that look within 60 degrees of straight in."""
    k = len(outward)
    return Wanted(first=np.arange(k + 1), direction=outward, most=np.full(k, -cos), ahead=-outward / AHEAD_COS)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Found:
    """The nearest point of each query: ``face`` (k,), -1 where there is none, ``point_mm`` (k, 3), ``distance_mm``."""

    face: Ints
    point_mm: Floats
    distance_mm: Floats


def nearest(tree: Tree, centres_mm: Floats, from_mm: Floats, wanted: Wanted, within_mm: Floats) -> Found:
    """Return the point nearest to each centre, among those that lie in a wanted direction from ``from_mm``.

    A point counts where the surface faces away from where one comes from, within ``within_mm`` of the centre, and is
    nearest among all about it: in a face's middle, or on an edge or corner that points inwards.
    """
    face, points, distance = _nearest(
        tree.corners,
        tree.normals,
        tree.boxes,
        tree.straight_cos,
        tree.chain,
        np.ascontiguousarray(centres_mm),
        np.ascontiguousarray(from_mm),
        wanted.first,
        np.ascontiguousarray(wanted.direction),
        wanted.most,
        np.ascontiguousarray(wanted.ahead),
        np.ascontiguousarray(within_mm),
    )
    return Found(face=np.where(face >= 0, tree.face[face], -1), point_mm=points, distance_mm=distance)


@njit(cache=True, nogil=True, error_model="numpy")
def _nearest(
    corners: Floats,
    normals: Floats,
    boxes: Floats,
    straight_cos: Floats,
    chain: Floats,
    centres: Floats,
    starts: Floats,
    first: Ints,
    direction: Floats,
    most: Floats,
    ahead: Floats,
    within: Floats,
) -> tuple[Ints, Floats, Floats]:  # pragma: no cover
    """Return the triangle, the point and the distance for every centre; -1 where nothing counts."""
    n, leaves, count = len(centres), len(boxes) // 2, len(corners)
    face, point, distance = np.full(n, -1, np.int64), np.zeros((n, 3)), np.full(n, np.inf)
    stack, stack_d = np.empty(96, np.int64), np.empty(96)
    q, way, work = np.empty(3), np.empty(3), np.empty((3, 3))
    for i in range(n):
        best = within[i] ** 2
        stack[0], stack_d[0], top = 1, 0.0, 1
        while top:
            top -= 1
            node = stack[top]
            if stack_d[top] > best:
                continue
            if first[i + 1] > first[i] + 1 and not _may_hold(boxes, node, starts, i, direction, most, first):
                continue
            if node < leaves:
                near, far = _to_box(boxes, 2 * node, centres, i), _to_box(boxes, 2 * node + 1, centres, i)
                one, other = 2 * node, 2 * node + 1
                if near > far:
                    near, far, one, other = far, near, other, one
                if far <= best:
                    stack[top], stack_d[top], top = other, far, top + 1
                if near <= best:
                    stack[top], stack_d[top], top = one, near, top + 1
                continue
            for k in range((node - leaves) * LEAF_N, min((node - leaves + 1) * LEAF_N, count)):
                if not _may_end(corners, normals, straight_cos, k, starts, ahead, i):
                    continue
                place = _closest(corners[k], centres[i], q, work)
                d = (q[0] - centres[i, 0]) ** 2 + (q[1] - centres[i, 1]) ** 2 + (q[2] - centres[i, 2]) ** 2
                if d >= best:
                    continue
                if not _all_about(centres[i], q, d, normals[k], straight_cos[k], place, ahead[i]):
                    continue
                if place < 3 and _leans_along(centres[i], q, d, chain[k, place]):
                    continue
                if _faces_away(q, starts[i], normals[k], way) and _wanted_way(
                    way, direction, most, first[i], first[i + 1]
                ):
                    best, face[i] = d, k
                    _mixed(q, q, 0.0, point[i])
        if face[i] >= 0:
            distance[i] = np.sqrt(best)
    return face, point, distance


@njit(cache=True, nogil=True, error_model="numpy")
def _may_end(
    corners: Floats, normals: Floats, straight_cos: Floats, k: int, starts: Floats, ahead: Floats, i: int
) -> bool:  # pragma: no cover
    """Return whether any point of a triangle may end the matter, told by its plane: its nearest point costs more."""
    out = looks = square = 0.0
    for j in range(3):
        out += (corners[k, 0, j] - starts[i, j]) * normals[k, j]
        looks += ahead[i, j] * normals[k, j]
        square += ahead[i, j] * ahead[i, j]
    if out <= 0.0:
        return False
    if looks >= 1.0 or square == 0.0:
        return True
    inner = False
    for j in range(6):
        inner |= straight_cos[k, j] <= FREE_COS
    return inner


@njit(cache=True, nogil=True, error_model="numpy")
def _all_about(
    centre: Floats, q: Floats, d: float, normal: Floats, straight_cos: Floats, place: int, ahead: Floats
) -> bool:  # pragma: no cover
    """Return whether a triangle's nearest point may be the nearest of all about it; ``d`` is its squared distance."""
    limit = straight_cos[place] if place < 6 else 1.0
    if limit > FREE_COS and _dot(ahead, ahead) > 0.0 and _dot(ahead, normal) < 1.0:
        return False
    if place >= 6:
        return True
    straight = 0.0
    for j in range(3):
        straight += (q[j] - centre[j]) * normal[j]
    return bool(straight >= limit * np.sqrt(d))


@njit(cache=True, nogil=True, error_model="numpy")
def _leans_along(centre: Floats, q: Floats, d: float, chain: Floats) -> bool:  # pragma: no cover
    """Return whether the way to a corner leans along the line of inner edges there: a neighbour is nearer."""
    lean = 0.0
    for j in range(3):
        lean += (q[j] - centre[j]) * chain[j]
    return bool(lean * lean > d)


@njit(cache=True, nogil=True, error_model="numpy")
def _faces_away(q: Floats, start: Floats, normal: Floats, way: Floats) -> bool:  # pragma: no cover
    """Write the way from a start to a point; return whether the surface there faces away from the start."""
    for j in range(3):
        way[j] = q[j] - start[j]
    length = np.sqrt(_dot(way, way))
    return bool(length >= 1e-9 and _dot(way, normal) >= FACING * length)


@njit(cache=True, nogil=True, error_model="numpy")
def _wanted_way(way: Floats, direction: Floats, most: Floats, low: int, high: int) -> bool:  # pragma: no cover
    """Return whether a way keeps to the limits of all directions from ``low`` to before ``high``."""
    length = np.sqrt(_dot(way, way))
    keeps = True
    for j in range(low, high):
        if _dot(way, direction[j]) > most[j] * length:
            keeps = False
            break
    return keeps


@njit(cache=True, nogil=True, error_model="numpy")
def _may_hold(
    boxes: Floats, node: int, starts: Floats, i: int, direction: Floats, most: Floats, first: Ints
) -> bool:  # pragma: no cover
    """Return whether a box may hold a point in a wanted direction: without this a search asks all that is near."""
    short = long = 0.0
    for k in range(3):
        under, over = boxes[node, k] - starts[i, k], boxes[node, 3 + k] - starts[i, k]
        away = max(under, 0.0, -over)
        short += away * away
        away = max(-under, over)
        long += away * away
    short, long = np.sqrt(short), np.sqrt(long)
    for j in range(first[i], first[i + 1]):
        least = 0.0
        for k in range(3):
            side = boxes[node, k] if direction[j, k] > 0.0 else boxes[node, 3 + k]
            least += direction[j, k] * (side - starts[i, k])
        if least > most[j] * (long if most[j] > 0.0 else short) + ROUNDING * long:
            return False
    return True


@njit(cache=True, nogil=True, error_model="numpy")
def _to_box(boxes: Floats, node: int, centres: Floats, i: int) -> float:  # pragma: no cover
    """Return the squared distance of a point from a box; infinite for an empty one."""
    total = 0.0
    for k in range(3):
        away = max(boxes[node, k] - centres[i, k], 0.0, centres[i, k] - boxes[node, 3 + k])
        total += away * away
    return total


@njit(cache=True, nogil=True, error_model="numpy")
def _dot(a: Floats, b: Floats) -> float:  # pragma: no cover
    """Return the product of two vectors."""
    return float(a[0] * b[0] + a[1] * b[1] + a[2] * b[2])


@njit(cache=True, nogil=True, error_model="numpy")
def _mixed(a: Floats, b: Floats, share: float, q: Floats) -> None:  # pragma: no cover
    """Write the point between two points; by number, since a slice would take numba seconds to compile."""
    for k in range(3):
        q[k] = a[k] + share * (b[k] - a[k])


@njit(cache=True, nogil=True, error_model="numpy")
def _closest(t: Floats, x: Floats, q: Floats, work: Floats) -> int:  # pragma: no cover
    """Write the point of a triangle nearest to x (Ericson 2004, section 5.1.5); return its corner, 3 + side, or 6."""
    ab, ac, away = work[0], work[1], work[2]
    for k in range(3):
        ab[k], ac[k], away[k] = t[1, k] - t[0, k], t[2, k] - t[0, k], x[k] - t[0, k]
    d1, d2 = _dot(ab, away), _dot(ac, away)
    if d1 <= 0.0 and d2 <= 0.0:
        _mixed(t[0], t[0], 0.0, q)
        return 0
    for k in range(3):
        away[k] = x[k] - t[1, k]
    d3, d4 = _dot(ab, away), _dot(ac, away)
    if d3 >= 0.0 and d4 <= d3:
        _mixed(t[1], t[1], 0.0, q)
        return 1
    if d1 * d4 - d3 * d2 <= 0.0 and d1 >= 0.0 and d3 <= 0.0:
        _mixed(t[0], t[1], d1 / (d1 - d3), q)
        return 3
    for k in range(3):
        away[k] = x[k] - t[2, k]
    d5, d6 = _dot(ab, away), _dot(ac, away)
    if d6 >= 0.0 and d5 <= d6:
        _mixed(t[2], t[2], 0.0, q)
        return 2
    if d5 * d2 - d1 * d6 <= 0.0 and d2 >= 0.0 and d6 <= 0.0:
        _mixed(t[0], t[2], d2 / (d2 - d6), q)
        return 5
    a, b, c = d3 * d6 - d5 * d4, d5 * d2 - d1 * d6, d1 * d4 - d3 * d2
    if a <= 0.0 and d4 - d3 >= 0.0 and d5 - d6 >= 0.0:
        _mixed(t[1], t[2], (d4 - d3) / (d4 - d3 + d5 - d6), q)
        return 4
    for k in range(3):
        q[k] = t[0, k] + (b * ab[k] + c * ac[k]) / (a + b + c)
    return 6
