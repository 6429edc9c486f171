"""Area, centroid and second moments of a flat shape with holes, exactly from its corners."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

Floats = NDArray[np.float64]
POLYGON = int(shapely.GeometryType.POLYGON)


@dataclass(frozen=True, kw_only=True)  # no slots: what follows is asked for again and again
class Moments:
    """Integrals over a shape: area, first and second moments about the origin of its plane."""

    area_mm2: float
    first_mm3: Floats
    """Integrals of x and of y."""
    second_mm4: Floats
    """Matrix of the integrals of x x, x y and y y."""

    def plus(self, other: Moments, weight: float = 1.0) -> Moments:
        """Return both together, the other weighted: what lies in two zones of unlike stiffness."""
        return Moments(
            area_mm2=self.area_mm2 + weight * other.area_mm2,
            first_mm3=self.first_mm3 + weight * other.first_mm3,
            second_mm4=self.second_mm4 + weight * other.second_mm4,
        )

    @cached_property
    def centre_mm(self) -> Floats:
        """The centroid."""
        return np.asarray(self.first_mm3 / self.area_mm2)

    @cached_property
    def about_centre_mm4(self) -> Floats:
        """Second moments about the centroid (parallel axes)."""
        return np.asarray(self.second_mm4 - np.outer(self.first_mm3, self.first_mm3) / self.area_mm2)


def moments_of(shape: shapely.Geometry) -> Moments:
    """Return the moments of a shape: sums over the triangles that its edges span with the origin (Green's theorem).

    >>> round(float(moments_of(shapely.box(-1, -3, 1, 3)).about_centre_mm4[1, 1]), 9)
    36.0
    """
    return moments_within(edges_of(shape))


def moments_within(edges: Floats) -> Moments:
    """Return the moments of what edges go round, as :func:`edges_of` gives them."""
    a, b = edges[:, 0], edges[:, 1]
    twice = a[:, 0] * b[:, 1] - b[:, 0] * a[:, 1]
    both = a + b
    second = ((twice[:, None] * both).T @ both + (twice[:, None] * a).T @ a + (twice[:, None] * b).T @ b) / 24.0
    return Moments(area_mm2=float(twice.sum()) / 2.0, first_mm3=(twice @ both) / 6.0, second_mm4=second)


def polygons_of(shape: shapely.Geometry) -> list[shapely.Polygon]:
    """Return the polygons of any shape; lines and points that cutting left over are none."""
    if isinstance(shape, shapely.Polygon):  # nearly all are one: ten times as fast
        return [] if shape.is_empty else [shape]
    parts = shapely.get_parts(shape)
    return list(parts[(shapely.get_type_id(parts) == POLYGON) & ~shapely.is_empty(parts)])


def edges_of(shape: shapely.Geometry) -> Floats:
    """Return the edges of a shape's polygons (n, 2 ends, 2): counter-clockwise outside, clockwise round holes."""
    if isinstance(shape, shapely.Polygon) and not shape.is_empty and not shapely.get_num_interior_rings(shape):
        points = shapely.get_coordinates(shape)  # most sections are one outline: a third of the time
        edges = np.stack([points[:-1], points[1:]], axis=1)
        twice = edges[:, 0, 0] * edges[:, 1, 1] - edges[:, 1, 0] * edges[:, 0, 1]
        return np.ascontiguousarray(edges[:, ::-1]) if twice.cumsum()[-1] < 0.0 else edges
    rings, owner = shapely.get_rings(polygons_of(shape), return_index=True)
    points, ring = shapely.get_coordinates(rings, return_index=True)
    if len(points) == 0:
        return np.zeros((0, 2, 2))
    on = ring[1:] == ring[:-1]
    edges, of = np.stack([points[:-1], points[1:]], axis=1)[on], ring[1:][on]
    twice = edges[:, 0, 0] * edges[:, 1, 1] - edges[:, 1, 0] * edges[:, 0, 1]
    hole = np.concatenate([[False], owner[1:] == owner[:-1]])  # the first ring of a polygon is its outside
    turned = (np.bincount(of, twice, len(rings)) < 0.0) != hole
    edges[turned[of]] = edges[turned[of], ::-1]
    return np.asarray(edges)


def beyond_line(edges: Floats, at_mm: Floats, way: Floats) -> tuple[float, float]:
    """Return the first moment of what lies beyond a line, about the line, and how long the line lies in the shape.

    ``way`` is a unit vector across the line. By Green's theorem, with d the distance beyond the line and t the place
    along it: the moment is the integral of d² / 2 over dt along all edges, and the length the sum of t where they
    cross, counted by the side that they cross to.

    >>> square = edges_of(shapely.box(-1, -1, 1, 1))
    >>> beyond_line(square, np.zeros(2), np.array([0.0, 1.0]))
    (1.0, 2.0)
    """
    far, along = (edges - at_mm) @ way, edges @ np.array([way[1], -way[0]])
    d, e = far[:, 0], far[:, 1]
    crosses = (d > 0.0) != (e > 0.0)
    share = d[crosses] / (d[crosses] - e[crosses])
    place = along[crosses, 0] + share * (along[crosses, 1] - along[crosses, 0])
    wide = float(np.where(e[crosses] > 0.0, 1.0, -1.0) @ place)
    part = np.ones(len(d))  # how much of an edge lies beyond
    part[crosses] = np.where(d[crosses] > 0.0, share, 1.0 - share)
    p, q = np.maximum(d, 0.0), np.maximum(e, 0.0)
    step = part * (along[:, 1] - along[:, 0])
    return -float(((p * p + p * q + q * q) * step).sum()) / 6.0, wide
