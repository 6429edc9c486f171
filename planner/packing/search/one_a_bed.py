"""How many units no bed takes two of, proved by the largest circle in each outline."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

SURE_MM = 0.05
"""Two circles must miss their room by this much: more than any tolerance of the proof, so that no bed is denied."""


def one_a_bed_n(shapes: Sequence[shapely.Polygon], ground: shapely.Polygon, apart_mm: float) -> int:
    """Return a number of units of which no two share a bed, at least 1; so many beds are needed.

    Outlines hold circles of radii r and q. Their middles lie in the ground's hull shrunk by r and by q, and at least
    r + q + spacing from each other; two convex sets are farthest apart at corners. Where that is too near for two
    circles, it is for any larger two: so many of the largest count as the two least of them leave no room.
    """
    radii = sorted((_inner_mm(shape) for shape in shapes), reverse=True)
    hull = shapely.convex_hull(ground)
    count = 1
    while count < len(radii) and _never_both(radii[count - 1], radii[count], hull, apart_mm):
        count += 1
    return count


def _inner_mm(shape: shapely.Polygon) -> float:
    """Return the radius of a circle that lies within a shape, within 1 % of the largest, in mm."""
    return float(shapely.length(shapely.maximum_inscribed_circle(shape, tolerance=0.005 * shape.area**0.5)))


def _never_both(one_mm: float, other_mm: float, hull: shapely.Polygon, apart_mm: float) -> bool:
    """Return whether two circles never lie in a convex ground apart from each other."""
    rooms = [hull.buffer(SURE_MM - radius, join_style="mitre") for radius in (one_mm, other_mm)]
    if any(room.is_empty for room in rooms):  # what lies on the bed has room there: let nothing rest on a hair
        return False
    a, b = (shapely.get_coordinates(room) for room in rooms)
    farthest = float(np.linalg.norm(a[:, None] - b[None], axis=2).max())
    return farthest < one_mm + other_mm + apart_mm - SURE_MM
