"""A plate from above as facts in mm, for the page's drawing and the card's: the bed, the copies, room for a number."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import shapely

from planner.job import Bed, bed_edge, usable_ground
from planner.output.tongue import ENGLISH, Tongue
from planner.packing import Placement, Plate, placed_outline

Rings = tuple[tuple[tuple[float, float], ...], ...]
AS_ROOMY = 0.9
"""The middle of an outline is as good as its roomiest place where it has this share of the room."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """One copy on the plate: its outline, its part's number, and the place with room for that number."""

    placement: Placement
    outline: shapely.Polygon
    number: int
    at_mm: tuple[float, float]
    room_mm: float
    """Distance from that place to the outline."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateView:
    """What is drawn of a plate, front edge at y = 0."""

    number: int
    width_mm: float
    depth_mm: float
    edge: shapely.Polygon
    margins: tuple[shapely.Polygon, ...]
    zones: tuple[shapely.Polygon, ...]
    copies: tuple[Copy, ...]

    @property
    def numbers(self) -> dict[str, int]:
        """The number of every part, in the order in which parts come first."""
        return {copy.placement.part: copy.number for copy in self.copies}

    def about(self, tongue: Tongue = ENGLISH) -> str:
        """Return the drawing in words, for whoever cannot see it."""
        copies = tongue.row(tongue.kept(f"{copy.placement.part} {copy.placement.copy}") for copy in self.copies)
        return tongue.say("Plate {n} from above: {parts}", n=str(self.number), parts=copies)

    def nested(self) -> tuple[tuple[str, str], ...]:
        """Return pairs of parts, the first lying in an opening of the second."""
        found: dict[tuple[str, str], None] = {}
        for outer in self.copies:
            for hole in map(shapely.Polygon, outer.outline.interiors):
                for inner in self.copies:
                    if hole.contains(inner.outline):
                        found[inner.placement.part, outer.placement.part] = None
        return tuple(found)


def plate_view(plate: Plate, rings: Mapping[str, Rings], bed: Bed) -> PlateView:
    """Return what is drawn of a plate on its bed; ``rings`` are the outlines of the parts as they stand."""
    numbers = {part: n for n, part in enumerate(dict.fromkeys(p.part for p in plate.placements), 1)}
    copies = []
    for placement in plate.placements:
        outline = placed_outline(rings[placement.part], placement)
        at_mm, room_mm = _roomiest(outline)
        copies.append(
            Copy(placement=placement, outline=outline, number=numbers[placement.part], at_mm=at_mm, room_mm=room_mm)
        )
    width_mm, depth_mm = bed.size_mm
    return PlateView(
        number=plate.number,
        width_mm=width_mm,
        depth_mm=depth_mm,
        edge=bed_edge(bed),
        margins=tuple(shapely.get_parts(usable_ground(bed, zones=False))),
        zones=tuple(shapely.Polygon(zone) for zone in bed.zones_mm),
        copies=tuple(copies),
    )


def _roomiest(outline: shapely.Polygon) -> tuple[tuple[float, float], float]:
    """Return the place in an outline with the most room round it, and that room; the middle where it is as roomy."""
    line = shapely.maximum_inscribed_circle(outline, tolerance=0.5)
    middle = outline.centroid
    as_roomy = outline.contains(middle) and outline.boundary.distance(middle) > AS_ROOMY * line.length
    x, y = middle.coords[0] if as_roomy else line.coords[0]
    return (x, y), line.length
