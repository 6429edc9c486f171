"""One shape alone on a bed: whether it fits at all, and where."""

from __future__ import annotations

import numpy as np
import shapely
import shapely.affinity

from planner.job import Bed, usable_ground
from planner.packing.layout.item import Item
from planner.packing.layout.outline import filled, polygon
from planner.packing.layout.packed_unit import Spot, at_spot
from planner.packing.search.bed_filling import CORNER, Floor, Shapes, cell_mm
from planner.packing.search.corner_fill import FINE_DEG
from planner.survey import largest_factor

SLACK_MM = 1e-3
"""What fits to a hair fits; the proof allows twice as much."""
STEP_DEG = 2.5
NOTCH_MM = 1.5
"""Room left round a zone in the opening that holds it: more than a cell of the raster, less than any part."""


def alone_spot(shape: shapely.Polygon, bed: Bed, ground: shapely.Polygon) -> Spot | None:
    """Return where a shape lies alone on a bed, None where it fits nowhere.

    Exact on rectangles (rotating calipers) and circles (least circle); elsewhere turns of 2.5 degrees are tried
    on a raster, so that a shape may be missed that fits with less than a cell to spare.
    """
    outline = np.asarray(shapely.convex_hull(shape).exterior.coords)[:-1]
    wide = ground.buffer(SLACK_MM, join_style="mitre")
    x0, y0, x1, y1 = ground.bounds
    if bed.shape == "circle":
        ring = shapely.minimum_bounding_circle(shapely.multipoints(outline)).centroid
        spot = Spot(turn_deg=0.0, shift_mm=((x0 + x1) / 2 - ring.x, (y0 + y1) / 2 - ring.y))
    else:
        _, turn = largest_factor(outline, x1 - x0, y1 - y0)
        a, b, c, d = at_spot(shape, Spot(turn_deg=turn, shift_mm=(0.0, 0.0))).bounds
        spot = Spot(turn_deg=turn % 360.0, shift_mm=((x0 + x1 - a - c) / 2, (y0 + y1 - b - d) / 2))
    if wide.covers(at_spot(shape, spot)):
        return spot
    if bed.shape != "polygon" and not bed.zones_mm:
        return None
    floor = Floor(ground, 0.0, Shapes(cell_mm(ground)))
    turns = np.arange(0.0, 360.0, STEP_DEG).tolist()
    return floor.place("alone", shape, FINE_DEG, CORNER) or floor.place("alone", shape, turns, CORNER)


def alone_shape(item: Item, bed: Bed, ground: shapely.Polygon) -> tuple[shapely.Polygon, Spot | None]:
    """Return a copy's outline with its brim and where it lies alone on a bed; None where it fits nowhere.

    The outline has no holes, but where it fits round a zone only: then it has a notch for that zone, so small that
    nothing else finds room in it.
    """
    shape = filled(filled(polygon(item.rings)).buffer(item.group.brim_mm))
    spot = alone_spot(shape, bed, ground)
    if spot is not None or not bed.zones_mm or len(item.rings) == 1:
        return shape, spot
    open_shape = polygon(item.rings).buffer(item.group.brim_mm)
    spot = alone_spot(open_shape, bed, ground)
    if spot is None:
        return shape, None
    zones = shapely.union_all([shapely.Polygon(zone) for zone in bed.zones_mm]).buffer(NOTCH_MM)
    back = shapely.affinity.translate(zones, -spot.shift_mm[0], -spot.shift_mm[1])
    notched = shape.difference(shapely.affinity.rotate(back, -spot.turn_deg, origin=(0.0, 0.0)).difference(open_shape))
    if isinstance(notched, shapely.Polygon) and ground.buffer(SLACK_MM).covers(at_spot(notched, spot)):
        return notched, spot
    return shape, None


def lies_alone(item: Item, bed: Bed) -> bool:
    """Return whether one copy, with its brim, lies alone on a bed at some turn; its height is not asked for."""
    return alone_shape(item, bed, usable_ground(bed))[1] is not None
