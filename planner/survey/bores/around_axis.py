"""Round about an axis: frames, circles, and how far round and how far along a wall stands."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3

Floats = NDArray[np.float64]

TURN_BINS, TIE = 720, 0.5 - 1e-6
"""Half degrees; where a corner lies in the very middle of one, both its neighbours cover it."""


def vec3(values: Floats) -> Vec3:
    """Return three plain floats, for records."""
    return float(values[0]), float(values[1]), float(values[2])


def across(axis: Floats) -> Floats:
    """Return two unit vectors across an axis, (2, 3)."""
    a, b, c = axis.tolist()
    least = min((abs(a), 0), (abs(b), 1), (abs(c), 2))[1]
    x, y, z = ((0.0, c, -b), (-c, 0.0, a), (b, -a, 0.0))[least]  # the axis crossed with its least direction
    long = (x * x + y * y + z * z) ** 0.5
    x, y, z = x / long, y / long, z / long
    return np.array([[x, y, z], [b * z - c * y, c * x - a * z, a * y - b * x]])


def circle(points: Floats) -> tuple[Floats, float]:
    """Return the centre and radius of the least-squares circle (Kasa 1976)."""
    middle = points.mean(axis=0)
    near = points - middle
    matrix = np.column_stack([2.0 * near, np.ones(len(near))])
    x, y, c = np.linalg.lstsq(matrix, (near**2).sum(axis=1), rcond=None)[0]
    return middle + np.array([x, y]), float(np.sqrt(max(c + x * x + y * y, 0.0)))


def whole(points: Floats, along: Floats) -> tuple[float, float]:
    """Return where the wall stands all round: the highest of its low rims to the lowest of its high ones."""
    # No round number of degrees lies between two sectors, where rounding would part the corners of one generator.
    sector = ((np.degrees(np.arctan2(points[:, 1], points[:, 0])) + 367.43) % 360.0 // 15.0).astype(int)
    parts = [part for part in (along[sector == k] for k in range(24)) if len(part)]
    low, high = float(max(part.min() for part in parts)), float(min(part.max() for part in parts))
    return (low, high) if low < high else ((low + high) / 2, (low + high) / 2)


def turn(triangles: Floats) -> NDArray[np.bool_]:
    """Return which half degrees round the axis are covered by triangles (n, 3, 2), seen along the axis."""
    angle = np.degrees(np.arctan2(triangles[..., 1], triangles[..., 0]))
    spread = (angle - angle[:, :1] + 180.0) % 360.0 - 180.0
    one, other, third = np.ascontiguousarray(spread.T)  # numpy is slow over an axis of three
    first = angle[:, 0] + np.minimum(np.minimum(one, other), third)
    last = angle[:, 0] + np.maximum(np.maximum(one, other), third)
    begin, end = (
        np.floor(first * TURN_BINS / 360.0 + TIE).astype(int),
        np.ceil(last * TURN_BINS / 360.0 - TIE).astype(int),
    )
    count = np.clip(end - begin, 0, TURN_BINS)
    begins = np.bincount(begin % TURN_BINS, minlength=2 * TURN_BINS + 1)
    edge = begins - np.bincount(begin % TURN_BINS + count, minlength=2 * TURN_BINS + 1)
    over = np.cumsum(edge)[: 2 * TURN_BINS] > 0
    return over[:TURN_BINS] | over[TURN_BINS:]
