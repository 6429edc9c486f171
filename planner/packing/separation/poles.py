"""The circles that fill an outline best, largest first."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

POLES_MOST = 8
COVERED = 0.9
"""No more circles are sought once they cover this share of the outline."""


def poles_of(shape: shapely.Polygon) -> NDArray[np.float64]:
    """Return inner circles (x, y, radius) in mm, (n, 3): each the largest in what the ones before it left."""
    left, rows = shape, list[tuple[float, float, float]]()
    while len(rows) < POLES_MOST and not left.is_empty and left.area > (1.0 - COVERED) * shape.area:
        line = shapely.maximum_inscribed_circle(left, tolerance=0.02 * shape.area**0.5)
        radius = float(shapely.length(line))
        if radius < 1e-3:
            break
        x, y = shapely.get_coordinates(line)[0]
        rows.append((float(x), float(y), radius))
        left = left.difference(shapely.Point(x, y).buffer(radius, quad_segs=8))
    return np.array(rows)
