"""Outlines: the shadow of a posed part on the bed, with its holes."""

from __future__ import annotations

import numpy as np
import shapely

from planner.layers import shape_of
from planner.mesh import Solid

Ring = tuple[tuple[float, float], ...]
SIMPLIFY_MM = 0.02
"""An outline is never smaller than the true shadow by more than this."""


def outline_of(posed: Solid) -> tuple[Ring, ...]:
    """Return the rings of a part's shadow, the outer ring first, then holes; several bodies give their hull.

    A sound solid is projected exactly; of an unsound one every triangle's shadow is united. Support needs no room of
    its own: it stands under what it holds, and its lines end there (:func:`planner.layers.laid_layers`).
    """
    if posed.manifold is not None:
        shape = shape_of(posed.manifold.project().simplify(SIMPLIFY_MM))
    else:
        flat = posed.corners_mm[:, :, :2]
        one, other = flat[:, 1] - flat[:, 0], flat[:, 2] - flat[:, 0]
        turn = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
        shape = shapely.union_all(shapely.polygons(flat[np.abs(turn) > 1e-9])).simplify(SIMPLIFY_MM)
    if not isinstance(shape, shapely.Polygon) or shape.is_empty:
        shape = shapely.convex_hull(shapely.multipoints(posed.vertices_mm[:, :2]))
    if not isinstance(shape, shapely.Polygon):  # a sheet on edge has no shadow: give it one line's width
        shape = shape.buffer(0.2)
    return (_ring(shape.exterior), *(_ring(hole) for hole in shape.interiors))


def polygon(rings: tuple[Ring, ...]) -> shapely.Polygon:
    """Return an outline as a polygon."""
    return shapely.Polygon(rings[0], rings[1:])


def filled(shape: shapely.Polygon) -> shapely.Polygon:
    """Return a shape without its holes."""
    return shapely.Polygon(shape.exterior)


def openings(shape: shapely.Polygon) -> shapely.MultiPolygon:
    """Return the holes of a shape."""
    return shapely.MultiPolygon([shapely.Polygon(ring) for ring in shape.interiors])


def _ring(line: shapely.LinearRing) -> Ring:
    """Return a ring without its repeated end."""
    return tuple((float(x), float(y)) for x, y in list(line.coords)[:-1])
