"""Area, centroid and second moments of a flat shape with holes, exactly from its corners."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
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

    @property
    def centre_mm(self) -> Floats:
        """The centroid."""
        return np.asarray(self.first_mm3 / self.area_mm2)

    @property
    def about_centre_mm4(self) -> Floats:
        """Second moments about the centroid (parallel axes)."""
        return np.asarray(self.second_mm4 - np.outer(self.first_mm3, self.first_mm3) / self.area_mm2)


NOTHING = Moments(area_mm2=0.0, first_mm3=np.zeros(2), second_mm4=np.zeros((2, 2)))


def moments_of(shape: shapely.Geometry) -> Moments:
    """Return the moments of a shape: sums over the triangles that its rings span with the origin (Green's theorem).

    >>> round(float(moments_of(shapely.box(-1, -3, 1, 3)).about_centre_mm4[1, 1]), 9)
    36.0
    """
    total = NOTHING
    for polygon in polygons_of(shape):
        total = total.plus(_ring(polygon.exterior, 1.0))
        for hole in polygon.interiors:
            total = total.plus(_ring(hole, -1.0))
    return total


def polygons_of(shape: shapely.Geometry) -> list[shapely.Polygon]:
    """Return the polygons of any shape; lines and points that cutting left over are none."""
    return [one for one in shapely.get_parts(shape) if isinstance(one, shapely.Polygon) and not one.is_empty]


def _ring(ring: shapely.LinearRing, sign: float) -> Moments:
    """Return the moments of what a ring goes round; ``sign`` is -1 for a hole."""
    points = np.asarray(ring.coords)[:, :2]
    a, b = points[:-1], points[1:]
    twice = a[:, 0] * b[:, 1] - b[:, 0] * a[:, 1]
    turned = sign if twice.sum() >= 0.0 else -sign
    middle = np.einsum("i,ij,ik->jk", twice, a + b, a + b) + np.einsum("i,ij,ik->jk", twice, a, a)
    second = (middle + np.einsum("i,ij,ik->jk", twice, b, b)) / 24.0
    return Moments(
        area_mm2=turned * float(twice.sum()) / 2.0,
        first_mm3=turned * (twice @ (a + b)) / 6.0,
        second_mm4=turned * second,
    )
