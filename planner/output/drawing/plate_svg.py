"""A plate as inline SVG for the page, to scale, seen from above: names on the outlines, and all that is kept clear."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from html import escape
from typing import Literal

import shapely

from planner.output.drawing.fitted_name import FittedName, fitted_name
from planner.output.drawing.plate_view import Copy, PlateView
from planner.packing import Plate

Marking = Literal["name", "wide", "number"]
"""How a copy is marked: by its name at any width, by its name on a wide page only, or by its number."""
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
    """A plate drawn, and of each part its number and how its copies are marked, the least readable of them."""

    svg: str
    numbers: dict[str, int]
    marked: dict[str, Marking]
    nested: tuple[tuple[str, str], ...]
    """Pairs of parts, the first lying in an opening of the second."""


def plate_svg(view: PlateView, plate: Plate, *, spacing_mm: float, held_up: Collection[str]) -> PlateDrawing:
    """Draw a plate, front edge below. ``spacing_mm`` stays between copies; ``held_up`` are parts that stand on support.

    A name is level, turned or shortened where it can be read; else the copy carries its part's number.
    """
    wide_mm, narrow_mm = (_readable_mm(view, room) for room in (WIDE_PX, NARROW_PX))
    marked: dict[str, Marking] = {}
    copies = []
    hatching = f"held-{plate.number}" if plate.group.support else ""
    for turn, copy in enumerate(view.copies, 1):
        part, most_mm = copy.placement.part, max(NAME_MOST_MM, narrow_mm)
        name = fitted_name(part, copy.outline, least_mm=wide_mm, most_mm=most_mm, others=view.numbers)
        how: Marking = "number" if name is None else "name" if name.size_mm >= narrow_mm else "wide"
        marked[part] = max(how, marked.get(part, "name"), key=("name", "wide", "number").index)
        words = "" if name is None else _name(name, how, view.depth_mm)
        if how != "name":
            words += _number(copy, how, view.depth_mm, narrow_mm)
        held = hatching if part in held_up else ""
        copies.append(_copy(copy, view.depth_mm, words, held, turn if plate.in_turn else 0))
    svg = (
        f'<svg class="bed" viewBox="-2 -2 {view.width_mm + 4:g} {view.depth_mm + 2 + FOOT_MM:g}" role="img" '
        f'aria-label="{escape(view.about())}">{_patterns(plate.number)}{_ground(view)}'
        f"{_clear(view, plate.group.brim_mm, spacing_mm)}{''.join(copies)}"
        f'<text class="edge" x="{view.width_mm / 2:g}" y="{view.depth_mm + 7:g}" font-size="{narrow_mm:.1f}">'
        f"front · {view.width_mm:g} mm</text></svg>"
    )
    return PlateDrawing(svg=svg, numbers=view.numbers, marked=marked, nested=view.nested())


def _readable_mm(view: PlateView, room_px: tuple[float, float]) -> float:
    """Return the size in mm of the smallest type that is read where a drawing has this room."""
    return READ_PX / min(room_px[0] / (view.width_mm + 4.0), room_px[1] / (view.depth_mm + 2.0 + FOOT_MM))


def _clear(view: PlateView, brim_mm: float, spacing_mm: float) -> str:
    """Return what stays clear round every copy, and its brim."""
    return "".join(
        f'<path class="apart" d="{_path(copy.outline.buffer(brim_mm + spacing_mm / 2), view.depth_mm, 0.2)}"/>'
        + (f'<path class="brim" d="{_path(copy.outline.buffer(brim_mm), view.depth_mm)}"/>' if brim_mm else "")
        for copy in view.copies
    )


def _copy(copy: Copy, depth_mm: float, words: str, hatching: str, turn: int) -> str:
    """Return one copy with its place as a title.

    ``hatching`` names its pattern where it stands on support; ``turn`` is its number where copies are printed one
    after another.
    """
    place, path = copy.placement, _path(copy.outline, depth_mm)
    held = f'<path class="held" fill="url(#{hatching})" fill-rule="evenodd" d="{path}"/>' if hatching else ""
    return (
        f'<g data-part="{escape(place.part)}" data-copy="{place.copy}">'
        f'<path class="copy" fill-rule="evenodd" d="{path}">'
        f"<title>{escape(place.part)} {place.copy}, at {place.x_mm:.1f}, {place.y_mm:.1f} mm, "
        f"turned {place.turn_deg:.1f}°{', printed on support' if hatching else ''}"
        f"{f', no. {turn} in turn' if turn else ''}</title></path>{held}{words}</g>"
    )


def _name(name: FittedName, how: Marking, depth_mm: float) -> str:
    """Return a name where it fits; its base line lies a third of its size below its middle."""
    x, y = name.x_mm, depth_mm - name.y_mm
    turn = f' transform="rotate({-name.turn_deg:g} {x:.2f} {y:.2f})"' if name.turn_deg else ""
    return (
        f'<text class="name {how}" x="{x:.2f}" y="{y:.2f}" dy="{name.size_mm / 3:.2f}" '
        f'font-size="{name.size_mm:.2f}"{turn}>{escape(name.text)}</text>'
    )


def _number(copy: Copy, how: Marking, depth_mm: float, least_mm: float) -> str:
    """Return the number of a copy's part where it has room."""
    (x, y), size_mm = copy.at_mm, max(least_mm, min(NAME_MOST_MM, 1.1 * copy.room_mm))
    return (
        f'<text class="number {how}" x="{x:.2f}" y="{depth_mm - y:.2f}" dy="{size_mm / 3:.2f}" '
        f'font-size="{size_mm:.2f}">{copy.number}</text>'
    )


def _patterns(number: int) -> str:
    """Return the hatchings of a drawing: support, and zones where nothing may lie; each page needs their names once."""
    patterns = "".join(
        f'<pattern id="{name}-{number}" width="{HATCH_MM:g}" height="{HATCH_MM:g}" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate({turn})"><path class="hatching" d="M0,0V{HATCH_MM:g}"/></pattern>'
        for name, turn in (("held", 45), ("zone", -45))
    )
    return f"<defs>{patterns}</defs>"


def _ground(view: PlateView) -> str:
    """Return the bed's edge, the line of its margins, and the zones where nothing may lie."""
    depth_mm = view.depth_mm
    zones = "".join(
        f'<path class="zone" fill="url(#zone-{view.number})" d="{_path(zone, depth_mm)}">'
        f"<title>kept clear</title></path>"
        for zone in view.zones
    )
    margins = "".join(f'<path class="margin" d="{_path(part, depth_mm)}"/>' for part in view.margins)
    return f'<path class="ground" d="{_path(view.edge, depth_mm)}"/>{margins}{zones}'


def _path(shape: shapely.Polygon, depth_mm: float, tolerance_mm: float = 0.05) -> str:
    """Return an outline as a path, y turned downward as SVG wants it."""
    rings = [shape.exterior, *shape.interiors]
    return " ".join(
        "M" + "L".join(f"{x:.2f},{depth_mm - y:.2f}" for x, y in list(ring.simplify(tolerance_mm).coords)[:-1]) + "Z"
        for ring in rings
    )
