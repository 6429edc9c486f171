"""A plate as inline SVG, to scale, seen from above: names on the outlines, and everything that is kept clear."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from typing import Literal

import shapely

from planner.job import Bed, bed_edge, usable_ground
from planner.output.drawing.fitted_name import FittedName, fitted_name
from planner.packing import Placement, Plate, placed_outline

Rings = tuple[tuple[tuple[float, float], ...], ...]
Told = Literal["name", "wide", "number"]
"""How a copy is told on the drawing: by its name at any width, by it on a wide page only, or by its number."""
WIDE_PX, NARROW_PX = (500.0, 520.0), (358.0, 520.0)
"""Width and height that a drawing has at most: on a page of 1280 px, and on a telephone of 390 px (see page.css)."""
READ_PX = 9.0
"""The smallest type that is read; common practice, no source."""
NAME_MOST_MM = 8.0
HATCH_MM = 3.0
FOOT_MM = 8.0
"""Room below the bed for its front edge's name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateDrawing:
    """A plate drawn, and of each part its number and how its copies are told, the least readable of them."""

    svg: str
    numbers: dict[str, int]
    told: dict[str, Told]
    nested: tuple[tuple[str, str], ...]
    """Pairs of parts, the first lying in an opening of the second."""


def plate_drawing(
    plate: Plate, rings: Mapping[str, Rings], bed: Bed, *, spacing_mm: float, held_up: Collection[str]
) -> PlateDrawing:
    """Draw a plate, front edge below. ``spacing_mm`` stays between copies; ``held_up`` are parts that stand on support.

    A name is level, turned or shortened where it can be read; else the copy carries its part's number.
    """
    width, depth = bed.size_mm
    parts = list(dict.fromkeys(placement.part for placement in plate.placements))
    numbers = {part: number for number, part in enumerate(parts, 1)}
    wide_mm, narrow_mm = (_readable_mm(bed, room) for room in (WIDE_PX, NARROW_PX))
    shapes = [placed_outline(rings[placement.part], placement) for placement in plate.placements]
    told: dict[str, Told] = {}
    copies = []
    hatching = f"held-{plate.number}" if plate.group.support else ""
    for turn, (placement, shape) in enumerate(zip(plate.placements, shapes, strict=True), 1):
        most = max(NAME_MOST_MM, narrow_mm)
        name = fitted_name(placement.part, shape, least_mm=wide_mm, most_mm=most, others=parts)
        how: Told = "number" if name is None else "name" if name.size_mm >= narrow_mm else "wide"
        told[placement.part] = max(how, told.get(placement.part, "name"), key=("name", "wide", "number").index)
        words = "" if name is None else _name(name, how, depth)
        if how != "name":
            words += _number(numbers[placement.part], how, shape, depth, narrow_mm)
        held = hatching if placement.part in held_up else ""
        copies.append(_copy(placement, shape, depth, words, held, turn if plate.in_turn else 0))
    clear = "".join(
        f'<path class="apart" d="{_path(shape.buffer(plate.group.brim_mm + spacing_mm / 2), depth, 0.2)}"/>'
        + (f'<path class="brim" d="{_path(shape.buffer(plate.group.brim_mm), depth)}"/>' if plate.group.brim_mm else "")
        for shape in shapes
    )
    listed = ", ".join(f"{p.part} {p.copy}" for p in plate.placements)
    svg = (
        f'<svg class="bed" viewBox="-2 -2 {width + 4:g} {depth + 2 + FOOT_MM:g}" role="img" '
        f'aria-label="Plate {plate.number} from above: {escape(listed)}">'
        f"{_patterns(plate.number)}{_ground(bed, plate.number)}"
        f"{clear}{''.join(copies)}"
        f'<text class="edge" x="{width / 2:g}" y="{depth + 7:g}" font-size="{narrow_mm:.1f}">'
        f"front · {width:g} mm</text></svg>"
    )
    return PlateDrawing(svg=svg, numbers=numbers, told=told, nested=_nested(plate, shapes))


def _nested(plate: Plate, shapes: Sequence[shapely.Polygon]) -> tuple[tuple[str, str], ...]:
    """Return pairs of parts, the first lying in an opening of the second."""
    found: dict[tuple[str, str], None] = {}
    for outer, shape in zip(plate.placements, shapes, strict=True):
        for hole in map(shapely.Polygon, shape.interiors):
            for inner, other in zip(plate.placements, shapes, strict=True):
                if hole.contains(other):
                    found[inner.part, outer.part] = None
    return tuple(found)


def _readable_mm(bed: Bed, room_px: tuple[float, float]) -> float:
    """Return the size in mm of the smallest type that is read where a drawing has this room."""
    width, depth = bed.size_mm
    return READ_PX / min(room_px[0] / (width + 4.0), room_px[1] / (depth + 2.0 + FOOT_MM))


def _copy(placement: Placement, shape: shapely.Polygon, depth: float, words: str, hatching: str, turn: int) -> str:
    """Return one copy with its place as a title.

    ``hatching`` names its pattern where it stands on support; ``turn`` is its number where copies are printed one
    after another.
    """
    path = _path(shape, depth)
    held = f'<path class="held" fill="url(#{hatching})" fill-rule="evenodd" d="{path}"/>' if hatching else ""
    return (
        f'<g data-part="{escape(placement.part)}" data-copy="{placement.copy}">'
        f'<path class="copy" fill-rule="evenodd" d="{path}">'
        f"<title>{escape(placement.part)} {placement.copy}, at {placement.x_mm:.1f}, {placement.y_mm:.1f} mm, "
        f"turned {placement.turn_deg:.1f}°{', stands on support' if hatching else ''}"
        f"{f', no. {turn} in turn' if turn else ''}</title></path>{held}{words}</g>"
    )


def _name(name: FittedName, how: Told, depth: float) -> str:
    """Return a name where it fits; its base line lies a third of its size below its middle."""
    x, y = name.x_mm, depth - name.y_mm
    turn = f' transform="rotate({-name.turn_deg:g} {x:.2f} {y:.2f})"' if name.turn_deg else ""
    return (
        f'<text class="name {how}" x="{x:.2f}" y="{y:.2f}" dy="{name.size_mm / 3:.2f}" '
        f'font-size="{name.size_mm:.2f}"{turn}>{escape(name.text)}</text>'
    )


def _number(number: int, how: Told, shape: shapely.Polygon, depth: float, least_mm: float) -> str:
    """Return the number of a part in the roomiest place of its outline, its middle where that is as roomy."""
    line = shapely.maximum_inscribed_circle(shape, tolerance=0.5)
    middle = shape.centroid
    as_roomy = shape.contains(middle) and shape.boundary.distance(middle) > 0.9 * line.length
    (x, y) = middle.coords[0] if as_roomy else line.coords[0]
    size = max(least_mm, min(NAME_MOST_MM, 1.1 * line.length))
    return (
        f'<text class="number {how}" x="{x:.2f}" y="{depth - y:.2f}" dy="{size / 3:.2f}" '
        f'font-size="{size:.2f}">{number}</text>'
    )


def _patterns(number: int) -> str:
    """Return the hatchings of a drawing: support, and zones where nothing may lie; each page needs their names once."""
    return (
        "<defs>"
        + "".join(
            f'<pattern id="{name}-{number}" width="{HATCH_MM:g}" height="{HATCH_MM:g}" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate({turn})"><path class="hatching" d="M0,0V{HATCH_MM:g}"/></pattern>'
            for name, turn in (("held", 45), ("zone", -45))
        )
        + "</defs>"
    )


def _ground(bed: Bed, number: int) -> str:
    """Return the bed's edge, the line of its margins, and the zones where nothing may lie."""
    depth = bed.size_mm[1]
    inner = usable_ground(bed, zones=False)
    return (
        f'<path class="ground" d="{_path(bed_edge(bed), depth)}"/>'
        + "".join(f'<path class="margin" d="{_path(part, depth)}"/>' for part in getattr(inner, "geoms", [inner]))
        + "".join(
            f'<path class="zone" fill="url(#zone-{number})" d="{_path(shapely.Polygon(zone), depth)}">'
            f"<title>kept clear</title></path>"
            for zone in bed.zones_mm
        )
    )


def _path(shape: shapely.Polygon, depth_mm: float, tolerance_mm: float = 0.05) -> str:
    """Return an outline as a path, y turned downward as SVG wants it."""
    rings = [shape.exterior, *shape.interiors]
    return " ".join(
        "M" + "L".join(f"{x:.2f},{depth_mm - y:.2f}" for x, y in list(ring.simplify(tolerance_mm).coords)[:-1]) + "Z"
        for ring in rings
    )
