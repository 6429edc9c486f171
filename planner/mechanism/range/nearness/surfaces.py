"""How near two closed surfaces come: their triangles in trees of boxes, one of them moved, nothing cut.

Cutting one body out of the other tells as much in many times as long; only surfaces that meet are worth a cut.
"""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d
import numpy as np
from numba import njit
from numpy.typing import NDArray

from planner.mechanism.places.frame import Frame
from planner.survey import LEAF_N, tree_boxes

Floats = NDArray[np.float64]
WHOLE_TURN = 4.0 * np.pi
STACK_N = 512
"""Pairs of boxes that wait at most: each step down leaves one, and no tree is half as deep."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Surface:
    """A body's triangles (m, 3, 3) in the order of their tree, its boxes, and a corner of each piece of it."""

    corners: Floats
    boxes: Floats
    seeds: Floats


def surface_of(body: manifold3d.Manifold) -> Surface:
    """Return the surface of a body."""
    _, corners, boxes = tree_boxes(_triangles(body))
    pieces = body.decompose()
    seeds = [_triangles(piece)[0, 0] for piece in pieces] if len(pieces) > 1 else [corners[0, 0]]
    return Surface(corners=corners, boxes=boxes, seeds=np.array(seeds))


def _triangles(body: manifold3d.Manifold) -> Floats:
    """Return the corners of a body's triangles (m, 3, 3)."""
    mesh = body.to_mesh64()
    return np.ascontiguousarray(np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts)])


def surface_gap_mm(one: Surface, other: Surface, step: Frame, most_mm: float) -> float:
    """Return how near the second comes to the first after a step, up to a length; 0 where they meet, or one is inside.

    The least of all distances of two triangles, exact to rounding: corner to face and side to side.
    """
    moved = np.ascontiguousarray(step.matrix())
    gap = float(_least(one.corners, one.boxes, other.corners, other.boxes, moved, most_mm))
    if gap > 0.0:
        back = step.inverse()
        if _inside(other.corners, other.boxes, back.points(one.seeds)) or _inside(
            one.corners, one.boxes, step.points(other.seeds)
        ):
            return 0.0
    return gap


def _inside(corners: Floats, boxes: Floats, points: Floats) -> bool:
    """Return whether any of some points, none of them on the surface, lies in a body."""
    near = ((points >= boxes[1, :3]) & (points <= boxes[1, 3:])).all(axis=1)
    return any(bool(_turned(corners, point) > WHOLE_TURN / 2.0) for point in points[near])


@njit(cache=True, nogil=True, error_model="numpy")
def _turned(corners: Floats, point: Floats) -> float:  # pragma: no cover
    """Return the solid angle under which a closed surface is seen from a point (Van Oosterom & Strackee 1983)."""
    total = 0.0
    a, b, c = np.empty(3), np.empty(3), np.empty(3)
    for k in range(len(corners)):
        for j in range(3):
            a[j], b[j], c[j] = corners[k, 0, j] - point[j], corners[k, 1, j] - point[j], corners[k, 2, j] - point[j]
        x, y, z = np.sqrt(_dot(a, a)), np.sqrt(_dot(b, b)), np.sqrt(_dot(c, c))
        box = (
            a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])
        )
        total += 2.0 * np.arctan2(box, x * y * z + _dot(a, b) * z + _dot(b, c) * x + _dot(c, a) * y)
    return abs(total)


@njit(cache=True, nogil=True, error_model="numpy")
def _least(
    one: Floats, one_boxes: Floats, other: Floats, other_boxes: Floats, moved: Floats, most: float
) -> float:  # pragma: no cover
    """Return the least distance of two triangles of two trees, the second moved; 0 where two meet."""
    n, m, best = len(one_boxes) // 2, len(other_boxes) // 2, most * most
    nodes, near = np.empty((STACK_N, 2), np.int64), np.empty(STACK_N)
    box, second, work = np.empty(6), np.empty((3, 3)), np.empty((6, 3))
    nodes[0, 0], nodes[0, 1], near[0], top = 1, 1, 0.0, 1
    while top:
        top -= 1
        a, b = nodes[top]
        if near[top] >= best:
            continue
        if a >= n and b >= m:
            best = _leaves(one, a - n, other, b - m, moved, best, second, work)
            if best <= 0.0:
                return 0.0
            continue
        split = b >= m or (a < n and _size(one_boxes, a) >= _size(other_boxes, b))
        for side in range(2):
            nodes[top + side, 0] = 2 * a + side if split else a
            nodes[top + side, 1] = b if split else 2 * b + side
            _moved_box(other_boxes, nodes[top + side, 1], moved, box)
            near[top + side] = _apart(one_boxes, nodes[top + side, 0], box)
        if near[top] < near[top + 1]:  # the nearer one is looked at first
            for j in range(2):
                nodes[top, j], nodes[top + 1, j] = nodes[top + 1, j], nodes[top, j]
            near[top], near[top + 1] = near[top + 1], near[top]
        top += 2
    return float(min(np.sqrt(best), most))


@njit(cache=True, nogil=True, error_model="numpy")
def _size(boxes: Floats, node: int) -> float:  # pragma: no cover
    """Return the longest side of a box; below nothing for an empty one."""
    x, y, z = boxes[node, 3] - boxes[node, 0], boxes[node, 4] - boxes[node, 1], boxes[node, 5] - boxes[node, 2]
    return float(max(x, y, z))


@njit(cache=True, nogil=True, error_model="numpy")
def _moved_box(boxes: Floats, node: int, moved: Floats, box: Floats) -> None:  # pragma: no cover
    """Write the box round a moved box; an empty one stays empty."""
    for i in range(3):
        middle, half = moved[i, 3], 0.0
        for j in range(3):
            middle += moved[i, j] * (boxes[node, j] + boxes[node, 3 + j]) / 2.0
            half += abs(moved[i, j]) * (boxes[node, 3 + j] - boxes[node, j]) / 2.0
        box[i], box[3 + i] = middle - half, middle + half


@njit(cache=True, nogil=True, error_model="numpy")
def _apart(boxes: Floats, node: int, box: Floats) -> float:  # pragma: no cover
    """Return the squared distance of two boxes; infinite where one is empty."""
    if not (boxes[node, 0] <= boxes[node, 3] and box[0] <= box[3]):
        return np.inf
    total = 0.0
    for k in range(3):
        away = max(boxes[node, k] - box[3 + k], 0.0, box[k] - boxes[node, 3 + k])
        total += away * away
    return total


@njit(cache=True, nogil=True, error_model="numpy")
def _leaves(
    one: Floats,
    a: int,
    other: Floats,
    b: int,
    moved: Floats,
    best: float,
    second: Floats,
    work: Floats,
) -> float:  # pragma: no cover
    """Return the least squared distance of the triangles of two leaves, where that is less than what is known."""
    for k in range(b * LEAF_N, min((b + 1) * LEAF_N, len(other))):
        for i in range(3):
            for j in range(3):
                second[i, j] = moved[j, 3]
                for axis in range(3):
                    second[i, j] += moved[j, axis] * other[k, i, axis]
        for h in range(a * LEAF_N, min((a + 1) * LEAF_N, len(one))):
            if _boxes_apart(one[h], second) < best:
                best = min(best, _triangles_apart(one[h], second, work))
                if best <= 0.0:
                    return 0.0
    return best


@njit(cache=True, nogil=True, error_model="numpy")
def _boxes_apart(one: Floats, other: Floats) -> float:  # pragma: no cover
    """Return the squared distance of two triangles' boxes."""
    total = 0.0
    for j in range(3):
        low, high = min(one[0, j], one[1, j], one[2, j]), max(one[0, j], one[1, j], one[2, j])
        under, over = min(other[0, j], other[1, j], other[2, j]), max(other[0, j], other[1, j], other[2, j])
        away = max(low - over, 0.0, under - high)
        total += away * away
    return total


@njit(cache=True, nogil=True, error_model="numpy")
def _triangles_apart(one: Floats, other: Floats, work: Floats) -> float:  # pragma: no cover
    """Return the squared distance of two triangles: of sides, and of corners from faces; 0 where one pierces."""
    least = np.inf
    for i in range(3):
        for j in range(3):
            least = min(least, _sides_apart(one[i], one[(i + 1) % 3], other[j], other[(j + 1) % 3], work))
    for turn in range(2):
        face, sides = (one, other) if turn == 0 else (other, one)
        heights = work[5]
        _normal(face, work)
        for i in range(3):
            heights[i] = 0.0
            for j in range(3):
                heights[i] += (sides[i, j] - face[0, j]) * work[2, j]
        square = _dot(work[2], work[2])
        if square <= 0.0:
            continue
        for i in range(3):
            if heights[i] * heights[i] < least * square and _over(face, sides[i], heights[i] / square, work):
                least = heights[i] * heights[i] / square
        for i in range(3):
            k = (i + 1) % 3
            if (heights[i] > 0.0) != (heights[k] > 0.0) and heights[i] != heights[k]:
                share = heights[i] / (heights[i] - heights[k])
                for j in range(3):
                    work[4, j] = sides[i, j] + share * (sides[k, j] - sides[i, j])
                if _over(face, work[4], 0.0, work):
                    return 0.0
    return least


@njit(cache=True, nogil=True, error_model="numpy")
def _normal(face: Floats, work: Floats) -> None:  # pragma: no cover
    """Write two sides of a triangle and their cross product."""
    a, b, n = work[0], work[1], work[2]
    for j in range(3):
        a[j], b[j] = face[1, j] - face[0, j], face[2, j] - face[0, j]
    n[0], n[1], n[2] = a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


@njit(cache=True, nogil=True, error_model="numpy")
def _over(face: Floats, point: Floats, height: float, work: Floats) -> bool:  # pragma: no cover
    """Return whether a point, let down onto a triangle's plane, lies in it; its sides and normal are written."""
    a, b, n, p = work[0], work[1], work[2], work[3]
    for j in range(3):
        p[j] = point[j] - height * n[j] - face[0, j]
    aa, ab, bb, pa, pb = _dot(a, a), _dot(a, b), _dot(b, b), _dot(p, a), _dot(p, b)
    over, u, v = aa * bb - ab * ab, bb * pa - ab * pb, aa * pb - ab * pa
    return bool(u >= 0.0 and v >= 0.0 and u + v <= over)


@njit(cache=True, nogil=True, error_model="numpy")
def _sides_apart(p: Floats, q: Floats, r: Floats, s: Floats, work: Floats) -> float:  # pragma: no cover
    """Return the squared distance of two straight sides (Ericson 2004, section 5.1.9)."""
    d, e, w = work[0], work[1], work[2]
    for j in range(3):
        d[j], e[j], w[j] = q[j] - p[j], s[j] - r[j], p[j] - r[j]
    a, b, c, f, g = _dot(d, d), _dot(d, e), _dot(d, w), _dot(e, w), _dot(e, e)
    span = a * g - b * b
    along = min(max((b * f - c * g) / span, 0.0), 1.0) if span > 1e-14 * a * g else 0.0
    over = (b * along + f) / g if g > 0.0 else 0.0
    if over < 0.0:
        over, along = 0.0, min(max(-c / a, 0.0), 1.0) if a > 0.0 else 0.0
    elif over > 1.0:
        over, along = 1.0, min(max((b - c) / a, 0.0), 1.0) if a > 0.0 else 0.0
    total = 0.0
    for j in range(3):
        away = w[j] + along * d[j] - over * e[j]
        total += away * away
    return total


@njit(cache=True, nogil=True, error_model="numpy")
def _dot(a: Floats, b: Floats) -> float:  # pragma: no cover
    """Return the product of two vectors."""
    return float(a[0] * b[0] + a[1] * b[1] + a[2] * b[2])
