"""How high a cord lies on smooth posts: where it may slide along them, it takes the shortest way."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mechanism.cord.placed_stop import Placed, Ring
from planner.mechanism.cord.vectors import less

Floats = NDArray[np.float64]
Heights = list[tuple[float, float]]
"""Of each stop: the height at which the cord comes to it, and at which it leaves it; 0 where it cannot slide."""
ROUNDS_MOST, STILL_MM, LEAST_MM = 60, 1e-12, 1e-9


def settled_heights(stops: Sequence[Placed], laid: Sequence[tuple[Vec3, Vec3]], arcs_mm: Sequence[float]) -> Heights:
    """Return the heights that make the cord shortest, its points of contact as seen along each axis kept.

    The length is a sum of norms of what is linear in the heights, so it is convex: weighted least squares, weighted
    anew with one over each length, leads to its least (Weiszfeld 1937).
    """
    sliding = [k for k, stop in enumerate(stops) if isinstance(stop, Ring) and stop.slides]
    column = {k: 2 * i for i, k in enumerate(sliding)}
    rows, fixed = [], []
    for k in range(len(stops) - 1):
        row, way = np.zeros((3, 2 * len(sliding))), np.array(less(laid[k + 1][0], laid[k][1]))
        for number, place, sign, point in ((k, 1, -1.0, laid[k][1]), (k + 1, 0, 1.0, laid[k + 1][0])):
            ring = stops[number]
            if number in column and isinstance(ring, Ring):
                row[:, column[number] + place] = sign * np.array(ring.axis)
                way -= sign * ring.height_mm(point) * np.array(ring.axis)
        rows.append(row)
        fixed.append(way)
    for k in sliding:
        row = np.zeros((3, 2 * len(sliding)))
        row[0, column[k]], row[0, column[k] + 1] = -1.0, 1.0
        rows.append(row)
        fixed.append(np.array([0.0, arcs_mm[k], 0.0]))
    heights = _shortest(np.array(rows), np.array(fixed))
    return [
        (float(heights[column[k]]), float(heights[column[k] + 1])) if k in column else (0.0, 0.0)
        for k in range(len(stops))
    ]


def _shortest(rows: Floats, fixed: Floats) -> Floats:
    """Return x with the least sum of the lengths of ``rows[k] @ x + fixed[k]``."""
    x: Floats = np.zeros(rows.shape[2])
    lengths = np.maximum(_across_mm(rows, fixed), LEAST_MM)
    for _ in range(ROUNDS_MOST):
        root = 1.0 / np.sqrt(lengths)
        found = np.linalg.lstsq(
            (rows * root[:, None, None]).reshape(-1, rows.shape[2]), -(fixed * root[:, None]).ravel(), rcond=None
        )[0]
        moved = float(np.abs(found - x).max())
        x = np.asarray(found, dtype=np.float64)
        lengths = np.maximum(_lengths_mm(rows, fixed, x), LEAST_MM)
        if moved < STILL_MM:
            break
    return x


def _lengths_mm(rows: Floats, fixed: Floats, x: Floats) -> Floats:
    """Return the lengths that are summed."""
    lengths: Floats = np.linalg.norm(np.einsum("kij,j->ki", rows, x) + fixed, axis=1)
    return lengths


def _across_mm(rows: Floats, fixed: Floats) -> Floats:
    """Return the lengths across all axes: where axes are parallel, one over them is the weight of the least at once."""
    found = []
    for row, way in zip(rows, fixed, strict=True):
        axes = row[:, np.abs(row).max(axis=0) > 0.0]
        along = axes @ np.linalg.lstsq(axes, way, rcond=None)[0] if axes.shape[1] else np.zeros(3)
        found.append(float(np.linalg.norm(way - along)))
    return np.array(found)
