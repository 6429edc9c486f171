"""Fill: parallel lines across a region, there and back."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def fill_lines(rings: list[Floats], pitch_mm: float, angle_deg: float) -> Floats:
    """Return the segments (n, 2, 2) of parallel lines inside a region (even-odd), in the order they are laid.

    Every line is the region's cut with a straight line; lines lie ``pitch_mm`` apart on a grid through the
    origin, so that layers of the same angle lie on each other.
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
    x, y, line = x[order], y[order], line[order]
    x, y, line = (values[: len(values) // 2 * 2].reshape(-1, 2) for values in (x, y, line))
    back = line[:, 0] % 2 == 1  # every other line runs back, its pieces in reverse
    place = np.lexsort((np.where(back, -x[:, 0], x[:, 0]), line[:, 0]))
    x = np.where(back[:, None], x[:, ::-1], x)[place]
    y = y[place]
    lines: Floats = np.stack([x, y], axis=2) @ frame
    return lines
