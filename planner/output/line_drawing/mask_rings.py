"""The outlines of what a mask of pixels covers, as closed rings; holes are rings of their own (even-odd rule)."""

from __future__ import annotations

from collections import defaultdict

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.output.line_drawing.view_grid import Floats

STAIR_PX = 0.75
"""Stairs of the grid are smoothed within this."""


def mask_rings(mask: NDArray[np.bool_]) -> list[Floats]:
    """Return rings (n, 2), x right and y by row, in pixels; a pixel reaches half a step around its centre."""
    held = np.pad(mask, 1)
    rows, columns = held.shape
    code = np.arange(rows * columns).reshape(rows, columns)
    inside, right, above = held, np.roll(held, -1, axis=1), np.roll(held, -1, axis=0)
    starts, ends = [], []
    for rim, near, far in (
        (inside & ~right, -columns, 0),  # up along the right side of a pixel
        (~inside & right, 0, -columns),  # down along the left side of the next
        (inside & ~above, 0, -1),  # leftward along the top
        (~inside & above, -1, 0),  # rightward along the bottom of the one above
    ):
        corner = code[rim]
        starts.append(corner + near)
        ends.append(corner + far)
    going: defaultdict[int, list[int]] = defaultdict(list)
    for a, b in zip(np.concatenate(starts).tolist(), np.concatenate(ends).tolist(), strict=True):
        going[a].append(b)
    rings = []
    for start in list(going):
        while going[start]:
            ring, here = [start], going[start].pop()
            while here != start:
                ring.append(here)
                here = going[here].pop()
            rings.append(ring)
    return [_smooth(np.array(ring), columns) for ring in rings if len(ring) > 8]


def _smooth(ring: NDArray[np.int64], columns: int) -> Floats:
    """Return a ring of corners as points with the grid's stairs taken out; a corner lies up and right of its pixel."""
    points = np.column_stack([ring % columns, ring // columns]) - 0.5
    closed = shapely.LineString(np.vstack([points, points[:1]])).simplify(STAIR_PX)
    return np.asarray(closed.coords)[:-1]
