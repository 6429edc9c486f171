"""The ``bed`` table of a printer's profile: a rectangle, a circle or any polygon, with zones kept clear."""

from __future__ import annotations

from typing import Literal, get_args

import shapely

from planner.job.file.table import Table
from planner.job.profiles.printer import Bed
from planner.job.usable_bed import usable_ground

Shape = Literal["rectangle", "circle", "polygon"]
SHAPES: tuple[Shape, ...] = get_args(Shape)
Corners = tuple[tuple[float, float], ...]


def read_bed(table: Table) -> Bed:
    """Read a bed; its margins and zones must leave something."""
    shape: Shape = table.word("shape", SHAPES, "rectangle")
    outline: Corners = ()
    if shape == "polygon":
        outline = _corners(table, "outline_mm", table.raw.get("outline_mm"))
        size = _box_mm(table, outline)
    elif shape == "circle" and not table.has("size_mm"):
        across = table.number("diameter_mm", low=1.0, high=5000.0)
        size = (across, across)
    else:
        width, depth = table.numbers("size_mm", 2, low=1.0, high=5000.0)
        size = (width, depth)
        if shape == "circle" and width != depth:
            table.refuse("size_mm", "a circle has one diameter", "write diameter_mm = 200.0 instead")
    bed = Bed(
        shape=shape,
        size_mm=size,
        height_mm=table.number("height_mm", high=5000.0, above=True),
        margin_mm=table.number("margin_mm", high=1000.0),
        outline_mm=outline,
        zones_mm=_zones(table),
    )
    table.done()
    if min(bed.usable_mm) <= 0 or usable_ground(bed, zones=False).is_empty:
        table.refuse("margin_mm", f"{bed.margin_mm:g} mm at every side leaves nothing of the bed", "make it smaller")
    if usable_ground(bed).is_empty:
        table.refuse("zones_mm", "the zones leave nothing of the bed", "make them smaller")
    return bed


def _box_mm(table: Table, outline: Corners) -> tuple[float, float]:
    """Return width and depth of a polygon's box, which must begin at the front left corner."""
    x0, y0, x1, y1 = shapely.Polygon(outline).bounds
    if max(abs(x0), abs(y0)) > 1e-6:
        table.refuse(
            "outline_mm",
            f"its least x and y are {x0:g} and {y0:g}",
            "count from the front left corner of its box, so that both are 0",
        )
    if table.has("size_mm"):
        table.refuse("size_mm", "a polygon's size is that of its outline", "take it out")
    return x1, y1


def _zones(table: Table) -> tuple[Corners, ...]:
    """Read the polygons where nothing may lie."""
    if not table.has("zones_mm"):
        return ()
    zones = table.raw["zones_mm"]
    if not isinstance(zones, list):
        table.refuse("zones_mm", "a list of polygons is needed", "write zones_mm = [[[0, 0], [20, 0], [20, 15]]]")
    return tuple(_corners(table, "zones_mm", zone) for zone in zones)


def _corners(table: Table, key: str, value: object) -> Corners:
    """Return the corners of one polygon; refuse what is none."""
    alone = Table({key: value} if value is not None else {}, table.where, table.error)
    rows = tuple((x, y) for x, y in alone.rows(key, 2))
    table.has(key)
    if len(rows) < 3 or not shapely.Polygon(rows).is_valid or shapely.Polygon(rows).area <= 0:
        table.refuse(key, "this is not a polygon", "give three corners or more, in order, with no edge across another")
    if max(abs(number) for row in rows for number in row) > 5000.0:
        table.refuse(key, "a corner lies more than 5000 mm away", "give millimetres")
    return rows
