"""Fill: parallel lines across a region, one stretch after the other, there and back."""

from __future__ import annotations

import math

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def fill_lines(rings: list[Floats], pitch_mm: float, angle_deg: float) -> Floats:
    """Return the segments (n, 2, 2) of parallel lines inside a region (even-odd), in the order they are laid.

    Every line is the region's cut with a straight line; lines lie ``pitch_mm`` apart on a grid through the
    origin, so that layers of the same angle lie on each other. A hole parts the region into stretches: each is
    laid there and back from its first line to its last, so that hardly a move crosses the hole.
    """
    if not rings:
        return np.empty((0, 2, 2))
    angle = math.radians(angle_deg)
    frame = np.array([[math.cos(angle), math.sin(angle)], [-math.sin(angle), math.cos(angle)]])
    start = np.concatenate(rings) @ frame.T
    end = np.concatenate([np.roll(ring, -1, axis=0) for ring in rings]) @ frame.T
    low, high = np.minimum(start[:, 1], end[:, 1]), np.maximum(start[:, 1], end[:, 1])
    first = np.floor(low / pitch_mm - 0.5).astype(np.int64) + 1  # lines at (k + 1/2) pitch, half-open in y
    last = np.floor(high / pitch_mm - 0.5).astype(np.int64)
    count = np.maximum(last - first + 1, 0)
    edge = np.repeat(np.arange(len(start)), count)
    if not len(edge):
        return np.empty((0, 2, 2))
    line = first[edge] + np.arange(len(edge)) - np.repeat(np.cumsum(count) - count, count)
    y = (line + 0.5) * pitch_mm
    share = (y - start[edge, 1]) / (end[edge, 1] - start[edge, 1])
    x = start[edge, 0] + share * (end[edge, 0] - start[edge, 0])
    order = np.lexsort((x, line))
    pairs = len(order) // 2 * 2
    x, y = x[order][:pairs].reshape(-1, 2), y[order][:pairs].reshape(-1, 2)
    place, back = _stretches(np.ascontiguousarray(line[order][:pairs:2]), np.ascontiguousarray(x))
    x = np.where(back[:, None], x[:, ::-1], x)[place]
    lines: Floats = np.stack([x, y[place]], axis=2) @ frame
    return lines


@njit(cache=True)
def _stretches(line, x):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Order segments, sorted by line and then along it: from each to a neighbour on the next line.

    Returns the order, and for every segment whether it is laid backward.
    """
    n = line.shape[0]
    begin = np.empty(n, np.int64)  # of every segment: the first segment of the next line
    begin[n - 1] = n
    for i in range(n - 2, -1, -1):
        begin[i] = i + 1 if line[i + 1] != line[i] else begin[i + 1]
    order, back = np.empty(n, np.int64), np.zeros(n, np.bool_)
    seen = np.zeros(n, np.bool_)
    front, at = 0, 0.0
    k = 0
    while k < n:
        while seen[front]:
            front += 1
        here = front
        while here >= 0:
            order[k] = here
            k += 1
            seen[here] = True
            back[here] = abs(x[here, 1] - at) < abs(x[here, 0] - at)
            at = x[here, 0] if back[here] else x[here, 1]
            following = -1
            other = begin[here]
            if other < n and line[other] == line[here] + 1:
                stop = begin[other]
                while other < stop:
                    if not seen[other] and x[other, 0] <= x[here, 1] and x[other, 1] >= x[here, 0]:
                        nearer = following < 0 or min(abs(x[other, 0] - at), abs(x[other, 1] - at)) < min(
                            abs(x[following, 0] - at), abs(x[following, 1] - at)
                        )
                        if nearer:
                            following = other
                    other += 1
            here = following
    return order, back
