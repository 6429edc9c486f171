"""A plate from above for its card, to scale, in ink and greys: every copy carries its kind's number."""

from __future__ import annotations

import shapely

from planner.output.drawing.plate_view import PlateView
from planner.output.drawing.shapes import Drawing, Label, Shape
from planner.output.tongue import ENGLISH, Tongue

TYPE_SHARE = 30.0
"""Type is the bed's width over this: 2.6 mm (7.4 points) where the drawing takes 78 mm of a card."""


def plate_shapes(view: PlateView, tongue: Tongue = ENGLISH) -> Drawing:
    """Return a plate, front edge below; a number that its piece is too small for stands on a disc."""
    type_mm = view.width_mm / TYPE_SHARE
    lift_mm = 1.6 * type_mm
    shapes = [_drawn(view.edge, lift_mm, stroke_mm=0.5)]
    shapes += [_drawn(margin, lift_mm, stroke_mm=0.2, dashed=True) for margin in view.margins]
    shapes += [_drawn(zone, lift_mm, fill=0.55) for zone in view.zones]
    labels, discs = [], []
    for copy in view.copies:
        shapes.append(_drawn(copy.outline.simplify(0.05), lift_mm, fill=0.86))
        (x, y), number = copy.at_mm, str(copy.number)
        needs_mm = 0.62 * type_mm if len(number) == 1 else 0.8 * type_mm
        if copy.room_mm < needs_mm:
            disc = shapely.Point(x, y).buffer(needs_mm, quad_segs=8)
            discs.append(_drawn(disc, lift_mm, fill=1.0, stroke_mm=0.2))
        size_mm = max(type_mm, min(1.3 * type_mm, copy.room_mm))
        labels.append(Label(at=(x, y + lift_mm - 0.35 * size_mm), text=number, size_mm=size_mm))
    front = tongue.say("front, {wide}", wide=tongue.amount(f"{view.width_mm:g} mm"))
    labels.append(Label(at=(view.width_mm / 2, 0.4 * type_mm), text=front, size_mm=type_mm))
    return Drawing(
        width_mm=view.width_mm,
        height_mm=view.depth_mm + lift_mm + 1.0,
        about=view.about(tongue),
        shapes=(*shapes, *discs),
        labels=tuple(labels),
    )


def _drawn(
    area: shapely.Polygon, lift_mm: float, *, fill: float | None = None, stroke_mm: float = 0.3, dashed: bool = False
) -> Shape:
    """Return an area as a shape, lifted over the words below the bed."""
    rings = [area.exterior, *area.interiors]
    return Shape(
        rings=tuple(tuple((x, y + lift_mm) for x, y in list(ring.coords)[:-1]) for ring in rings),
        fill=fill,
        stroke_mm=stroke_mm,
        dashed=dashed,
    )
