"""Triangles in a complete binary tree of boxes, by the Morton order of their middles."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

LEAF_N = 4
"""Triangles in a leaf."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tree:
    """Triangles in the order of their leaves, their normals and numbers, and the boxes of a complete binary tree."""

    corners: Floats
    normals: Floats
    face: Ints
    boxes: Floats
    straight_cos: Floats
    """How straight each triangle's corners (3) and sides (3, from corner to corner) must lie ahead, as cosines."""
    chain: Floats
    """The way along a line of inner edges at each triangle's corners, (m, 3, 3)."""


def tree_of(corners: Floats, normals: Floats, straight_cos: Floats, chain: Floats) -> Tree:
    """Put triangles (m, 3, 3) in a tree."""
    order, sorted_corners, boxes = tree_boxes(corners)
    return Tree(
        corners=sorted_corners,
        normals=np.ascontiguousarray(normals[order]),
        face=order,
        boxes=boxes,
        straight_cos=np.ascontiguousarray(straight_cos[order]),
        chain=np.ascontiguousarray(chain[order]),
    )


def tree_boxes(corners: Floats) -> tuple[Ints, Floats, Floats]:
    """Return triangles (m, 3, 3) by the Morton order of their middles (Morton 1966): numbers, corners, and boxes.

    The boxes are those of a complete binary tree: 1 is the root, 2 n and 2 n + 1 lie in n, and each of the second half
    holds the next ``LEAF_N`` triangles.
    """
    middles = corners.mean(axis=1)
    low, size = middles.min(axis=0), max(float(np.ptp(middles, axis=0).max()), 1e-12)
    cells = np.minimum((middles - low) / size * 2**20, 2**20 - 1).astype(np.uint64)
    order = np.argsort(_spread(cells[:, 0]) | _spread(cells[:, 1]) << 1 | _spread(cells[:, 2]) << 2, kind="stable")
    leaves = 1 << max(0, int(np.ceil(np.log2(max(1, -(-len(order) // LEAF_N))))))
    boxes = np.empty((2 * leaves, 6))
    boxes[:, :3], boxes[:, 3:] = np.inf, -np.inf
    sorted_corners = np.ascontiguousarray(corners[order])
    leaf = leaves + np.arange(len(order)) // LEAF_N
    np.minimum.at(boxes[:, :3], leaf, sorted_corners.min(axis=1))
    np.maximum.at(boxes[:, 3:], leaf, sorted_corners.max(axis=1))
    width = leaves // 2
    while width:
        below = boxes[2 * width : 4 * width].reshape(width, 2, 6)
        boxes[width : 2 * width, :3] = below[:, :, :3].min(axis=1)
        boxes[width : 2 * width, 3:] = below[:, :, 3:].max(axis=1)
        width //= 2
    return order.astype(np.int64), sorted_corners, boxes


def _spread(value: NDArray[np.uint64]) -> NDArray[np.uint64]:
    """Return 20 bits of every number with two empty bits after each."""
    for shift, mask in ((32, 0x1F00000000FFFF), (16, 0x1F0000FF0000FF), (8, 0x100F00F00F00F00F)):
        value = (value | value << np.uint64(shift)) & np.uint64(mask)
    for shift, mask in ((4, 0x10C30C30C30C30C3), (2, 0x1249249249249249)):
        value = (value | value << np.uint64(shift)) & np.uint64(mask)
    return value


def reaching(tree: Tree, low_mm: Floats, high_mm: Floats) -> Ints:
    """Return the triangles whose own boxes reach into a box, the lowest number first."""
    found: Ints = _reaching(tree.boxes, tree.corners, np.ascontiguousarray(low_mm), np.ascontiguousarray(high_mm))
    return np.sort(tree.face[found])


@njit(cache=True, nogil=True, error_model="numpy")
def _reaching(boxes: Floats, corners: Floats, low: Floats, high: Floats) -> Ints:  # pragma: no cover
    """Return the places in the tree of the triangles that reach into a box."""
    leaves, count, stack, top = len(boxes) // 2, 0, np.empty(96, np.int64), 1
    stack[0] = 1
    found = np.empty(64, np.int64)
    while top:
        top -= 1
        node = stack[top]
        if not _meet(boxes[node, :3], boxes[node, 3:], low, high):
            continue
        if node < leaves:
            stack[top], stack[top + 1] = 2 * node, 2 * node + 1
            top += 2
            continue
        for k in range((node - leaves) * LEAF_N, min((node - leaves + 1) * LEAF_N, len(corners))):
            least, most = corners[k, 0].copy(), corners[k, 0].copy()
            for corner in range(1, 3):
                least, most = np.minimum(least, corners[k, corner]), np.maximum(most, corners[k, corner])
            if not _meet(least, most, low, high):
                continue
            if count == len(found):
                longer = np.empty(2 * count, np.int64)
                for j in range(count):
                    longer[j] = found[j]
                found = longer
            found[count] = k
            count += 1
    return found[:count]


@njit(cache=True, nogil=True, error_model="numpy")
def _meet(low: Floats, high: Floats, other_low: Floats, other_high: Floats) -> bool:  # pragma: no cover
    """Return whether two boxes meet."""
    apart = False
    for k in range(3):
        apart |= low[k] > other_high[k] or high[k] < other_low[k]
    return not apart
