"""Ways through a whole part, end to end along its own three axes: for parts whose load goes round a bend."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength.beam.cut_forces import Cut
from planner.strength.beam.cut_pieces import Pieces
from planner.strength.beam.flat_moments import polygons_of
from planner.strength.loads.part_load import as_vec

SQUARE = 0.3
"""Faces within 17 degrees of square to others count as square to them."""
ORIGIN = shapely.Point(0.0, 0.0)
OFF_SHARE = 0.5
LEFT_N = 3
"""A way leaves a part where so many cuts lie off it by this share of their thin side, or cut nothing: the part is then
cut along its own axes, too; no source."""


def end_to_end(solid: Solid) -> tuple[tuple[Vec3, Vec3], ...]:
    """Return three ways through a solid, square to its largest faces, to the largest square to these, and to both."""
    corners, middle = solid.corners_mm, solid.bounds_mm.mean(axis=0)
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    areas = np.linalg.norm(normals, axis=1)
    units = normals / np.maximum(areas, 1e-12)[:, None]
    alike = np.round(units, 3)
    sides, which = np.unique(
        np.where(alike @ [1.0, 1e-3, 1e-6] < 0.0, -1.0, 1.0)[:, None] * alike, axis=0, return_inverse=True
    )
    weight = np.bincount(which.ravel(), areas, minlength=len(sides))
    first = sides[weight.argmax()] / np.linalg.norm(sides[weight.argmax()])
    square = np.where(np.abs(sides @ first) < SQUARE, weight, 0.0)
    second = sides[square.argmax()] if square.any() else np.eye(3)[np.abs(first).argmin()]
    second = second - (second @ first) * first
    second /= np.linalg.norm(second)
    found = []
    for axis in (first, second, np.cross(first, second)):
        reach = (solid.vertices_mm - middle) @ axis
        found.append((as_vec(middle + reach.min() * axis), as_vec(middle + reach.max() * axis)))
    return tuple(found)


def leaves(cuts: Sequence[tuple[Cut, shapely.Geometry, Pieces]], asked_n: int) -> bool:
    """Return whether a way leaves the part, as from the shank of a hook to its tip: then the bend is cut apart."""
    outside = sum(_filled(shape).distance(ORIGIN) > OFF_SHARE * thin_mm(shape) for _, shape, _ in cuts)
    return bool(outside + asked_n - len(cuts) >= LEFT_N)


def _filled(shape: shapely.Geometry) -> shapely.Geometry:
    """Return a cut without its holes: a way inside a tube does not leave it."""
    return shapely.union_all([shapely.Polygon(one.exterior) for one in polygons_of(shape)])


def thin_mm(shape: shapely.Geometry) -> float:
    """Return the side of a square of a cut's size, or how thin it is where it is flatter: a wide angle's legs."""
    box = shapely.oriented_envelope(shape)
    corners = np.asarray(box.exterior.coords) if isinstance(box, shapely.Polygon) else np.zeros((3, 2))
    return float(min(shape.area**0.5, np.linalg.norm(np.diff(corners[:3], axis=0), axis=1).min()))
