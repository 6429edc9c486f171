"""The ground that parts may lie on: the bed less its margins and the zones kept clear."""

from __future__ import annotations

import shapely

from planner.job.profiles.printer import Bed


def usable_ground(bed: Bed, *, zones: bool = True) -> shapely.Polygon | shapely.MultiPolygon:
    """Return the usable bed from its front left corner, in mm; ``zones`` False leaves the zones in it.

    A circle is a polygon inside it, at most 0.01 mm smaller at 300 mm.
    """
    ground = bed_edge(bed).buffer(-bed.margin_mm, quad_segs=64)
    if bed.shape == "circle":
        ground = shapely.Point(bed.size_mm[0] / 2, bed.size_mm[0] / 2).buffer(bed.usable_mm[0] / 2, quad_segs=128)
    if zones and bed.zones_mm:
        ground = ground.difference(shapely.union_all([shapely.Polygon(zone) for zone in bed.zones_mm]))
    return ground


def bed_edge(bed: Bed) -> shapely.Polygon:
    """Return the whole bed as a polygon, margins and zones included."""
    if bed.shape == "polygon":
        return shapely.Polygon(bed.outline_mm)
    if bed.shape == "circle":
        return shapely.Point(bed.size_mm[0] / 2, bed.size_mm[0] / 2).buffer(bed.size_mm[0] / 2, quad_segs=128)
    return shapely.box(0.0, 0.0, *bed.size_mm)
