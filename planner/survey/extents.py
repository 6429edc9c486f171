"""Extents in any pose and turn, exact on the convex hull."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, QhullError

from planner.finding import Vec3

Floats = NDArray[np.float64]


def hull_points(vertices_mm: Floats) -> Floats:
    """Return the vertices of the convex hull, (h, 3); all of them for a flat cloud."""
    try:
        points: Floats = vertices_mm[ConvexHull(vertices_mm).vertices]
    except QhullError:  # flat or needle-like: every vertex may be an extreme one
        points = np.unique(vertices_mm, axis=0)
    return points


def bed_frame(down: Vec3) -> Floats:
    """Return a (3, 3) rotation whose rows are the bed's x, y and up for a pose."""
    up = -np.asarray(down, float) / np.linalg.norm(down)
    # Written out: numpy's own product of two vectors takes ten times as long, and thousands of poses are asked.
    a, b, c = (float(v) for v in up)
    x = np.array([(0.0, -c, b), (c, 0.0, -a), (-b, a, 0.0)][int(np.argmin(np.abs(up)))])
    x /= np.linalg.norm(x)
    d, e, f = (float(v) for v in x)
    return np.array([x, (b * f - c * e, c * d - a * f, a * e - b * d), up])


def shadow_mm(hull_mm: Floats, down: Vec3) -> tuple[Floats, float]:
    """Return the convex outline on the bed, (k, 2) counter-clockwise, and the height, in mm."""
    turned = hull_mm @ bed_frame(down).T
    height = float(np.ptp(turned[:, 2]))
    outline = shapely.convex_hull(shapely.multipoints(turned[:, :2]))
    if not isinstance(outline, shapely.Polygon):
        return turned[:, :2], height
    return np.asarray(shapely.orient_polygons(outline).exterior.coords)[:-1], height


def largest_factor(outline_mm: Floats, width_mm: float, depth_mm: float) -> tuple[float, float]:
    """Return the largest factor at which a convex outline fits a rectangle, and its turn in degrees.

    Notes
    -----
    Between two turns at which another vertex becomes extreme, both extents are sinusoids, concave there;
    so the best turn is one of those, or one where both sides of the rectangle bind at once. Every such
    turn is tried, hence the answer is exact (rotating calipers, Toussaint 1983).
    """
    edges = np.diff(np.vstack([outline_mm, outline_mm[:1]]), axis=0)
    angles = np.unique(np.mod(-np.arctan2(edges[:, 1], edges[:, 0]), np.pi / 2))
    angles = np.unique(np.concatenate([angles, angles + np.pi / 2, [0.0, np.pi / 2]]))
    ends = np.append(angles, np.pi)
    middle = (angles + ends[1:]) / 2 if len(ends) > len(angles) else angles
    x_mid, y_mid = _spans(outline_mm, middle)
    # Within one piece: extent_x = p.(cos, -sin), extent_y = q.(sin, cos) with fixed difference vectors p and q.
    tangent = np.arctan2(
        depth_mm * x_mid[:, 0] - width_mm * y_mid[:, 1], depth_mm * x_mid[:, 1] + width_mm * y_mid[:, 0]
    )
    crossing = np.mod(tangent, np.pi)
    tried = np.concatenate([angles, crossing])
    x, y = _spans(outline_mm, tried)
    across = x[:, 0] * np.cos(tried) - x[:, 1] * np.sin(tried)
    along = y[:, 0] * np.sin(tried) + y[:, 1] * np.cos(tried)
    with np.errstate(divide="ignore"):
        factor = np.minimum(width_mm / across, depth_mm / along)
    best = int(np.argmax(factor))
    return float(factor[best]), float(np.degrees(tried[best]))


def _spans(outline_mm: Floats, angles: Floats) -> tuple[Floats, Floats]:
    """Return the difference vectors of the extreme vertices along x and along y after each turn, (a, 2) each."""
    cos, sin = np.cos(angles), np.sin(angles)
    x = outline_mm[:, :1] * cos - outline_mm[:, 1:] * sin
    y = outline_mm[:, :1] * sin + outline_mm[:, 1:] * cos
    across = outline_mm[x.argmax(axis=0)] - outline_mm[x.argmin(axis=0)]
    along = outline_mm[y.argmax(axis=0)] - outline_mm[y.argmin(axis=0)]
    return across, along


def circle_mm(outline_mm: Floats) -> float:
    """Return the diameter of the smallest circle around an outline."""
    return 2.0 * float(shapely.minimum_bounding_radius(shapely.multipoints(outline_mm)))
