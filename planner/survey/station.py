"""Inside measures of a shell at a station along its length, taken on a section."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.inner_round import inner_round

END_MARGIN = 1e-4
"""A station at the very end is moved in by this share of the length, so that the section meets the part."""
ROOM_SHARE = 0.05
"""What is hollow must take up at least this share of the section's hull to count as an inside."""
WIDE_SHARE = 0.25
"""The same across an axis that is not the longest: there a slot must not be taken for the inside."""
OPEN_MOST_PERCENT = 60.0
"""A round that is more open than this is none; common practice, no source. Half a pipe is open by half."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """An inside measure, and how much of the round it is the part itself does not close.

    Parameters
    ----------
    mm
        The measure. A round that is open is continued over its mouth in the curve of its inner side.
    open_percent
        Share of the round that no inner side bounds: mouth and slots together; 0 for a closed ring and a length.
    along
        The axis along which the station lies, where that is not the part's longest: a ring may be shorter than wide.
    """

    mm: float
    open_percent: float
    along: str = ""


def inside_at(solid: Solid, station_percent: float, kind: str) -> Inside | None:
    """Return the inside width or circumference of a shell at a station; None where it has no inside.

    Parameters
    ----------
    station_percent
        Along the longest axis of the drawn part, from its low end. Where the section across that axis closes little of
        a round, and across one other axis most of one, along that other one.
    kind
        ``"width"``: longest side of the smallest rectangle around the inner side; ``"around"``: length of the
        tight string round it; ``"length"``: the part's extent along its longest axis.
    """
    longest, *others = sorted(range(3), key=lambda axis: -solid.size_mm[axis])
    if kind == "length":
        return Inside(mm=solid.size_mm[longest], open_percent=0.0)
    found = _across(solid, station_percent, longest, kind, ROOM_SHARE)
    if found is not None and found.open_percent <= OPEN_MOST_PERCENT:
        return found
    across = {"xyz"[axis]: _across(solid, station_percent, axis, kind, WIDE_SHARE) for axis in others}
    closed = [
        replace(one, along=along) for along, one in across.items() if one and one.open_percent <= OPEN_MOST_PERCENT
    ]
    return closed[0] if len(closed) == 1 else found


def _across(solid: Solid, station_percent: float, axis: int, kind: str, room_share: float) -> Inside | None:
    """Return the inside measure of a section across an axis; None where too little of it is hollow."""
    section = _section(solid, station_percent, axis)
    if section is None:
        return None
    hull = shapely.convex_hull(section)
    hollow = max(_polygons(hull.difference(section)), key=lambda part: part.area, default=None)
    if hollow is None or hollow.area < room_share * hull.area:
        return None
    if hollow.distance(hull.exterior) < 1e-9 * hull.length:  # it reaches the outside: an open shell
        found = inner_round(section, hollow)
        outline, open_percent = (found.outline(kind), found.open_percent) if found else (None, 0.0)
    else:
        outline, open_percent = np.asarray(hollow.exterior.coords), 0.0
    apart = open_percent > OPEN_MOST_PERCENT and len(_polygons(section)) > 1
    if outline is None or (apart and kind == "width"):  # between two walls there is no width of one inside
        return None
    shape = shapely.convex_hull(shapely.MultiPoint(outline))
    return Inside(mm=float(shape.length) if kind == "around" else _longest_side(shape), open_percent=open_percent)


def _section(solid: Solid, station_percent: float, axis: int) -> shapely.Geometry | None:
    """Return the cut through the part across an axis at a station; None where the plane meets nothing."""
    share = float(np.clip(station_percent / 100.0, END_MARGIN, 1.0 - END_MARGIN))
    place = solid.bounds_mm[0].copy()
    place[axis] += share * solid.size_mm[axis]
    segments = solid.trimesh.section(plane_origin=place, plane_normal=np.eye(3)[axis])
    if segments is None:
        return None
    flat = [np.delete(np.asarray(curve), axis, axis=1) for curve in segments.discrete]
    rings = [shapely.Polygon(ring).buffer(0) for ring in flat if len(ring) > 3]
    section = shapely.Polygon()
    for ring in sorted(rings, key=lambda ring: -ring.area):  # a ring in a ring is a hole, one in a hole is solid again
        section = section.symmetric_difference(ring)
    return section if section.area > 0.0 else None


def _longest_side(shape: shapely.Geometry) -> float:
    """Return the longest side of the smallest rectangle around a shape."""
    corners = np.asarray(shapely.minimum_rotated_rectangle(shape).exterior.coords)
    return float(np.linalg.norm(np.diff(corners, axis=0), axis=1).max())


def _polygons(shape: shapely.Geometry) -> list[shapely.Polygon]:
    """Return the polygons of a shape."""
    return [part for part in shapely.get_parts(shape) if isinstance(part, shapely.Polygon)]
