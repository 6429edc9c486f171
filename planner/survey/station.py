"""Inside measures of a shell at a station along its length, taken on a section."""

from __future__ import annotations

import numpy as np
import shapely

from planner.mesh import Solid

END_MARGIN = 1e-4
"""A station at the very end is moved in by this share of the length, so that it meets matter."""


def inside_mm(solid: Solid, station_percent: float, kind: str) -> float | None:
    """Return the inside width or circumference of a shell at a station, in mm; None where it has no inside.

    Parameters
    ----------
    station_percent
        Along the longest axis of the drawn part, from its low end.
    kind
        ``"width"``: longest side of the smallest rectangle around the opening; ``"around"``: length of the
        tight string round the opening; ``"length"``: the part's extent along its longest axis.
    """
    axis = int(np.argmax(solid.size_mm))
    if kind == "length":
        return solid.size_mm[axis]
    share = float(np.clip(station_percent / 100.0, END_MARGIN, 1.0 - END_MARGIN))
    place = solid.bounds_mm[0].copy()
    place[axis] += share * solid.size_mm[axis]
    segments = solid.trimesh.section(plane_origin=place, plane_normal=np.eye(3)[axis])
    if segments is None:
        return None
    flat = [np.delete(np.asarray(curve), axis, axis=1) for curve in segments.discrete]
    matter = shapely.unary_union([shapely.Polygon(ring).buffer(0) for ring in flat if len(ring) > 3])
    rings = [shapely.Polygon(ring).buffer(0) for ring in flat if len(ring) > 3]
    for inner in rings:  # a closed ring's opening lies inside another ring
        if any(outer is not inner and outer.contains(inner) for outer in rings):
            matter = matter.difference(inner)
    opening = max(_parts(shapely.convex_hull(matter).difference(matter)), key=lambda p: p.area, default=None)
    if opening is None or opening.area < 0.05 * shapely.convex_hull(matter).area:
        return None
    if kind == "around":
        return float(shapely.convex_hull(opening).length)
    box = np.asarray(shapely.minimum_rotated_rectangle(opening).exterior.coords)
    return float(np.linalg.norm(np.diff(box, axis=0), axis=1).max())


def _parts(shape: shapely.Geometry) -> list[shapely.Polygon]:
    """Return the polygons of a shape."""
    return [part for part in shapely.get_parts(shape) if isinstance(part, shapely.Polygon)]
