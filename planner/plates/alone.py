"""One shape alone on a bed: whether it fits at all, and where."""

from __future__ import annotations

import numpy as np
import shapely

from planner.job import Bed, usable_ground
from planner.plates.corner_fill import FINE_DEG
from planner.plates.floor import CORNER, Floor, Shapes, cell_mm
from planner.plates.item import Item
from planner.plates.outline import filled, polygon
from planner.plates.unit import Spot, at_spot
from planner.survey import largest_factor

SLACK_MM = 1e-3
"""What fits to a hair fits; the proof allows twice as much."""
STEP_DEG = 2.5


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


def lies_alone(item: Item, bed: Bed) -> bool:
    """Return whether one copy, with its brim, lies alone on a bed at some turn; its height is not asked for."""
    shape = filled(filled(polygon(item.rings)).buffer(item.group.brim_mm))
    return alone_spot(shape, bed, usable_ground(bed)) is not None
