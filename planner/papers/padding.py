"""Padding templates at true size, with a control square; those larger than the paper in tiles to glue together."""

from __future__ import annotations

import math
from dataclasses import dataclass

import shapely

from planner.job import Padding
from planner.papers.drawing import Drawing, Label, Point, Shape, box
from planner.papers.page_size import PageSize
from planner.papers.sheet import Block, Card, Picture, Sheet, Ticks, Words
from planner.planned import Plan, PlannedPart

SQUARE_MM = 50.0
"""Side of the control square."""
TRUE_MM = 0.5
"""A ruler reads no finer: off by more, and the printer has scaled."""
OVERLAP_MM = 12.0
WORDS_MM = 34.0
"""Room that the words over a template take on its page."""
STRIP_MM = SQUARE_MM + 8.0
"""Height of the strip with the square, below the template."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """A window on a template: its lower left corner and its size, in the template's mm, and its place in the grid."""

    column: int
    row: int
    x: float
    y: float
    width: float
    height: float


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
    tiles = tuple(t for t in tiles_of(wide, high, size) if whole.intersects(_window(t)))
    cards = []
    for tile in tiles:
        place = "" if len(tiles) == 1 else f", tile {_name(tile)} of {len(tiles)}"
        blocks: list[Block] = [
            Words(
                text=f"{padding.thickness_mm:g} mm thick, {wide:.1f} × {high:.1f} mm over all, "
                f"{whole.area / 100:.1f} cm². True size: print at 100 %, no fitting to the page.",
            ),
            Words(
                text=f"Measure the square first: {SQUARE_MM:g} mm each way, within {TRUE_MM:g} mm. If not, do not cut.",
                tone="warning",
            ),
            Picture(drawing=template(rings, tile, tiles, padding.part)),
        ]
        cards.append(Card(title=title + place, blocks=tuple(blocks)))
    return cards


def _without(padding: Padding, part: PlannedPart) -> tuple[Block, ...]:
    """Say why there is no template, and how to make one."""
    uneven = bool(padding.rings_mm)
    area = None if padding.area_mm2 is None else padding.area_mm2 * (math.prod(part.scale_percent) / 1e6) ** (2 / 3)
    told = f" It takes about {area / 100:.0f} cm²." if area else ""
    why = "the part is scaled unevenly" if uneven else "the job gives its area only, no outline"
    return (
        Words(text=f"There is no template: {why}.{told}", tone="strong"),
        Ticks(
            steps=(
                f"Lay paper into {padding.part}, rub along its edges, cut 2 mm inside the line.",
                f"Try the paper on the part, then cut the {padding.thickness_mm:g} mm padding by it.",
            )
        ),
        Words(
            text='To have it printed next time: [[padding]] outline = "pad.svg", drawn in mm at 100 %.', tone="small"
        ),
    )


def _whole(rings: tuple[tuple[Point, ...], ...]) -> shapely.Geometry:
    """Return the area inside the rings by the even-odd rule."""
    whole: shapely.Geometry = shapely.Polygon()
    for ring in rings:
        whole = whole.symmetric_difference(shapely.Polygon(ring))
    return whole


def _window(tile: Tile) -> shapely.Polygon:
    """Return what a tile shows."""
    return shapely.box(tile.x, tile.y, tile.x + tile.width, tile.y + tile.height)


def tiles_of(wide: float, high: float, size: PageSize) -> tuple[Tile, ...]:
    """Return the windows that cover a template, row by row from the lower left; neighbours overlap."""
    most_x, most_y = size.inner_mm[0] - 2.0, size.inner_mm[1] - WORDS_MM - STRIP_MM
    columns, rows = _n(wide, most_x), _n(high, most_y)
    step_x, step_y = most_x - OVERLAP_MM, most_y - OVERLAP_MM
    return tuple(
        Tile(
            column=column,
            row=row,
            x=column * step_x,
            y=row * step_y,
            width=min(most_x, wide - column * step_x),
            height=min(most_y, high - row * step_y),
        )
        for row in range(rows)
        for column in range(columns)
    )


def _n(long: float, most: float) -> int:
    """Return how many windows of a length cover a length with overlap."""
    return 1 if long <= most else 1 + math.ceil((long - most) / (most - OVERLAP_MM))


def _name(tile: Tile) -> str:
    """Return a tile's name: a letter for the column, a number for the row, from the lower left."""
    return f"{chr(ord('A') + tile.column % 26)}{tile.row + 1}"


def template(rings: tuple[tuple[Point, ...], ...], tile: Tile, tiles: tuple[Tile, ...], part: str) -> Drawing:
    """Return one tile at true size: the outline above, the control square in the strip below."""
    lift = STRIP_MM
    window = _window(tile)
    shapes = [box(1.0, 1.0, SQUARE_MM, SQUARE_MM, stroke_mm=0.3)]
    for ring in rings:
        cut = shapely.LineString([*ring, ring[0]]).intersection(window) if len(tiles) > 1 else None
        if cut is None:
            shapes.append(Shape(rings=(_moved(ring, tile, lift),)))
            continue
        joined = shapely.line_merge(cut) if cut.geom_type == "MultiLineString" else cut
        lines = [line for line in shapely.get_parts(joined) if line.geom_type == "LineString" and not line.is_empty]
        shapes += [Shape(rings=(_moved(tuple(line.coords), tile, lift),), closed=False) for line in lines]
    shapes += _seams(tile, tiles, lift)
    middle = 1.0 + SQUARE_MM / 2
    labels = [
        Label(at=(middle, middle + 1.0), text=f"{SQUARE_MM:g} × {SQUARE_MM:g} mm", size_mm=4.4),
        Label(at=(middle, middle - 5.0), text="control square", size_mm=3.4),
        Label(
            at=(SQUARE_MM + 6.0, 1.0 + SQUARE_MM / 2),
            text=f"{part}: cut on the line" + ("" if len(tiles) == 1 else f"; {_name(tile)}, glue on the dashes"),
            size_mm=4.0,
            anchor="start",
        ),
    ]
    return Drawing(
        width_mm=max(tile.width + 2.0, SQUARE_MM + 90.0),
        height_mm=lift + tile.height + 1.0,
        about=f"Template of the padding of {part} at true size, with a control square of {SQUARE_MM:g} mm",
        shapes=tuple(shapes),
        labels=tuple(labels),
        true_size=True,
    )


def _moved(points: tuple[Point, ...], tile: Tile, lift: float) -> tuple[Point, ...]:
    """Return points where the tile shows them."""
    return tuple((x - tile.x + 1.0, y - tile.y + lift) for x, y in points)


def _seams(tile: Tile, tiles: tuple[Tile, ...], lift: float) -> list[Shape]:
    """Return the dashed lines on which this tile meets its neighbours: the middle of each overlap."""
    places = {(other.column, other.row): other for other in tiles}
    lines: list[tuple[Point, Point]] = []
    for step in (-1, 1):
        if side := places.get((tile.column + step, tile.row)):
            x = (max(tile.x, side.x) + min(tile.x + tile.width, side.x + side.width)) / 2 - tile.x + 1.0
            lines.append(((x, lift), (x, lift + tile.height)))
        if level := places.get((tile.column, tile.row + step)):
            y = (max(tile.y, level.y) + min(tile.y + tile.height, level.y + level.height)) / 2 - tile.y + lift
            lines.append(((1.0, y), (1.0 + tile.width, y)))
    return [Shape(rings=(line,), closed=False, dashed=True, stroke_mm=0.2) for line in lines]
