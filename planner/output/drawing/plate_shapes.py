"""A plate from above, to scale: the bed as it is, what is kept clear on it, every copy with its kind's number."""

from __future__ import annotations

from collections.abc import Mapping

import shapely

from planner.job import Bed, bed_edge, usable_ground
from planner.output.drawing.shapes import Drawing, Label, Shape
from planner.packing import Plate, placed_outline
from planner.plan import PlannedPart

TYPE_SHARE = 30.0
"""Type is the bed's width over this: 2.6 mm (7.4 points) where the drawing takes 78 mm of a card."""


def plate_drawing(plate: Plate, parts: Mapping[str, PlannedPart], bed: Bed) -> Drawing:
    """Return a plate from above, front edge below; a number that its piece is too small for stands on a disc."""
    width, depth = bed.size_mm
    unit = width / TYPE_SHARE
    lift = 1.6 * unit
    numbers = {part: index for index, part in enumerate(dict.fromkeys(p.part for p in plate.placements), 1)}
    shapes, labels = _ground(bed, lift), []
    discs: list[Shape] = []
    for placement in plate.placements:
        outline = placed_outline(parts[placement.part].outline_mm, placement)
        shapes.append(_drawn(outline.simplify(0.05), lift, fill=0.86))
        line = shapely.maximum_inscribed_circle(outline, tolerance=0.5)
        (x, y), number = line.coords[0], str(numbers[placement.part])
        room = 0.62 * unit if len(number) == 1 else 0.8 * unit
        if line.length < room:
            discs.append(_drawn(shapely.Point(x, y).buffer(room, quad_segs=8), lift, fill=1.0, stroke_mm=0.2))
        size = max(unit, min(1.3 * unit, line.length))
        labels.append(Label(at=(x, y + lift - 0.35 * size), text=number, size_mm=size))
    labels.append(Label(at=(width / 2, 0.4 * unit), text=f"front, {width:g} mm", size_mm=unit))
    told = ", ".join(f"{p.part} {p.copy}" for p in plate.placements)
    return Drawing(
        width_mm=width,
        height_mm=depth + lift + 1.0,
        about=f"Plate {plate.number} from above: {told}",
        shapes=(*shapes, *discs),
        labels=tuple(labels),
    )


def _ground(bed: Bed, lift: float) -> list[Shape]:
    """Return the bed's edge, the line of its margins, and the zones kept clear, in dark grey."""
    shapes = [_drawn(bed_edge(bed), lift, stroke_mm=0.5)]
    shapes += [
        _drawn(piece, lift, stroke_mm=0.2, dashed=True) for piece in shapely.get_parts(usable_ground(bed, zones=False))
    ]
    return shapes + [_drawn(shapely.Polygon(zone), lift, fill=0.55, stroke_mm=0.3) for zone in bed.zones_mm]


def _drawn(
    area: shapely.Polygon, lift: float, *, fill: float | None = None, stroke_mm: float = 0.3, dashed: bool = False
) -> Shape:
    """Return an area as a shape, lifted over the words below the bed."""
    rings = [area.exterior, *area.interiors]
    return Shape(
        rings=tuple(tuple((x, y + lift) for x, y in list(ring.coords)[:-1]) for ring in rings),
        fill=fill,
        stroke_mm=stroke_mm,
        dashed=dashed,
    )
