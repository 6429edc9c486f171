"""Padding templates at true size, with a control square; those larger than the paper in tiles to glue together."""

from __future__ import annotations

import math

import shapely

from planner.job import Padding
from planner.output.drawing.shapes import Drawing, Label, Point, Shape, box
from planner.output.paper_files.page_size import PageSize
from planner.output.paper_files.sheet import Block, Card, Picture, Sheet, Ticks, Words
from planner.output.paper_files.tiles import (
    SQUARE_MM,
    STRIP_MM,
    Tile,
    moved,
    name_of,
    seam_shapes,
    tile_map,
    tile_words,
    tiles_of,
    window,
)
from planner.plan import Plan, PlannedPart

TRUE_MM = 0.5
"""A ruler reads no finer: off by more, and the printer has scaled."""


def padding_templates(plan: Plan, size: PageSize) -> Sheet:
    """Return a card for every piece of padding: its template, or why there is none."""
    cards: list[Card] = []
    for padding in plan.job.paddings:
        part = next(p for p in plan.parts if p.part.name == padding.part)
        cards += _cards(padding, part, size)
    if not cards:
        none = Words(text="The job names no padding: there is nothing to cut out.", tone="strong")
        cards = [Card(title="Padding templates", blocks=(none,))]
    return Sheet(name="padding", title="Padding templates", cards=tuple(cards))


def rings_at_size(padding: Padding, part: PlannedPart) -> tuple[tuple[Point, ...], ...] | None:
    """Return the outline at the part's size, mirrored where the part is; None where it has none to scale evenly."""
    if not padding.rings_mm or len({round(value, 9) for value in part.scale_percent}) > 1:
        return None
    factor = part.scale_percent[0] / 100.0
    wide = max(x for ring in padding.rings_mm for x, _ in ring)
    if part.mirrored:
        return tuple(tuple(((wide - x) * factor, y * factor) for x, y in ring[::-1]) for ring in padding.rings_mm)
    return tuple(tuple((x * factor, y * factor) for x, y in ring) for ring in padding.rings_mm)


def _cards(padding: Padding, part: PlannedPart, size: PageSize) -> list[Card]:
    """Return the cards of one piece of padding."""
    title = f"Padding of {padding.part}"
    rings = rings_at_size(padding, part)
    if rings is None:
        return [Card(title=title, blocks=_without(padding, part))]
    wide, high = (max(p[axis] for ring in rings for p in ring) for axis in (0, 1))
    whole = _whole(rings)
    tiles = tuple(t for t in tiles_of(wide, high, size) if whole.intersects(window(t)))
    cards = []
    for tile in tiles:
        place = "" if len(tiles) == 1 else f", tile {name_of(tile)} of {len(tiles)}"
        blocks: list[Block] = [
            Words(
                text=f"{padding.thickness_mm:g} mm thick, {wide:.1f} × {high:.1f} mm over all, "
                f"{whole.area / 100:.1f} cm². True size: print at 100 %, do not fit to the page.",
            ),
            Words(
                text=f"Measure the square first: it must be {SQUARE_MM:g} mm each way, within {TRUE_MM:g} mm. "
                "If it is not, do not cut.",
                tone="warning",
            ),
            *([Words(text=tile_words(tile, tiles))] if len(tiles) > 1 else []),
            Picture(drawing=template(rings, tile, tiles, padding.part)),
        ]
        cards.append(Card(title=title + place, blocks=tuple(blocks)))
    return cards


def _without(padding: Padding, part: PlannedPart) -> tuple[Block, ...]:
    """Say why there is no template, and how to make one."""
    uneven = bool(padding.rings_mm)
    area = None if padding.area_mm2 is None else padding.area_mm2 * (math.prod(part.scale_percent) / 1e6) ** (2 / 3)
    phrase = f" About {area / 100:.0f} cm² is needed." if area else ""
    why = "the part is scaled unevenly" if uneven else "the job gives only its area, not its outline"
    return (
        Words(text=f"There is no template: {why}.{phrase}", tone="strong"),
        Ticks(
            steps=(
                f"Lay paper into {padding.part}, rub along the edges, and cut 2 mm inside the line.",
                f"Try the paper on the part, then use it to cut the {padding.thickness_mm:g} mm padding.",
            )
        ),
        Words(
            text='To get a template next time, add [[padding]] outline = "pad.svg", drawn in mm at 100 %.', tone="small"
        ),
    )


def _whole(rings: tuple[tuple[Point, ...], ...]) -> shapely.Geometry:
    """Return the area inside the rings by the even-odd rule."""
    whole: shapely.Geometry = shapely.Polygon()
    for ring in rings:
        whole = whole.symmetric_difference(shapely.Polygon(ring))
    return whole


def template(rings: tuple[tuple[Point, ...], ...], tile: Tile, tiles: tuple[Tile, ...], part: str) -> Drawing:
    """Return one tile at true size: the outline above, the control square in the strip below."""
    lift_mm = STRIP_MM
    seen = window(tile)
    shapes = [box(1.0, 1.0, SQUARE_MM, SQUARE_MM, stroke_mm=0.3)]
    for ring in rings:
        cut = shapely.LineString([*ring, ring[0]]).intersection(seen) if len(tiles) > 1 else None
        if cut is None:
            shapes.append(Shape(rings=(moved(ring, tile, lift_mm),)))
            continue
        joined = shapely.line_merge(cut) if cut.geom_type == "MultiLineString" else cut
        lines = [line for line in shapely.get_parts(joined) if line.geom_type == "LineString" and not line.is_empty]
        shapes += [Shape(rings=(moved(tuple(line.coords), tile, lift_mm),), closed=False) for line in lines]
    seams, names = seam_shapes(tile, tiles, lift_mm)
    middle = 1.0 + SQUARE_MM / 2
    labels = [
        Label(at=(middle, middle + 1.0), text=f"{SQUARE_MM:g} × {SQUARE_MM:g} mm", size_mm=4.4),
        Label(at=(middle, middle - 5.0), text="control square", size_mm=3.4),
        Label(
            at=(SQUARE_MM + 6.0, 1.0 + SQUARE_MM / 2 if len(tiles) == 1 else 46.0),
            text=f"{part}: cut on the line" + ("" if len(tiles) == 1 else f"; this is tile {name_of(tile)}"),
            size_mm=4.0,
            anchor="start",
        ),
        *names,
    ]
    shapes += seams
    if len(tiles) > 1:
        there, called = tile_map(tile, tiles, (SQUARE_MM + 6.0, 1.0))
        shapes += there
        labels += called
    return Drawing(
        width_mm=max(tile.width_mm + 2.0, SQUARE_MM + 90.0),
        height_mm=lift_mm + tile.height_mm + 1.0,
        about=f"Template of the padding of {part} at true size, with a control square of {SQUARE_MM:g} mm",
        shapes=tuple(shapes),
        labels=tuple(labels),
        true_size=True,
    )
