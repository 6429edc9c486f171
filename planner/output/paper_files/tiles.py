"""Tiles: a template larger than the paper, in windows that overlap, with marks that meet where they are glued."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from planner.output.drawing.shapes import Label, Point, Shape, box
from planner.output.paper_files.page_size import PageSize
from planner.output.tongue import ENGLISH, Tongue

OVERLAP_MM = 12.0
WORDS_MM, GLUE_WORDS_MM = 34.0, 4.0
"""Room that the words over a template take on its page, and those that tell how to glue it."""
SQUARE_MM = 50.0
"""Side of the control square."""
STRIP_MM = SQUARE_MM + 8.0
"""Height of the strip with the square, below the template."""
MARK_MM = 2.5
"""Half of a diamond: two of them that meet are seen to half a millimetre."""
MAP_MM = 42.0
"""Longest side of the map of all tiles beside the square."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """A window on a template: its lower left corner and its size, in the template's mm, and its place in the grid."""

    column: int
    row: int
    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float


def window(tile: Tile) -> shapely.Polygon:
    """Return what a tile shows."""
    return shapely.box(tile.x_mm, tile.y_mm, tile.x_mm + tile.width_mm, tile.y_mm + tile.height_mm)


def tiles_of(wide_mm: float, high_mm: float, size: PageSize, more_mm: float = 0.0) -> tuple[Tile, ...]:
    """Return the windows that cover a template, row by row from the lower left; neighbours overlap.

    ``more_mm`` is the room that words over it take beyond ``WORDS_MM`` where there are several.
    """
    most_x, most_y = size.inner_mm[0] - 2.0, size.inner_mm[1] - WORDS_MM - STRIP_MM
    if wide_mm > most_x or high_mm > most_y:
        most_y -= GLUE_WORDS_MM + more_mm
    columns, rows = _n(wide_mm, most_x), _n(high_mm, most_y)
    step_x, step_y = most_x - OVERLAP_MM, most_y - OVERLAP_MM
    return tuple(
        Tile(
            column=column,
            row=row,
            x_mm=column * step_x,
            y_mm=row * step_y,
            width_mm=min(most_x, wide_mm - column * step_x),
            height_mm=min(most_y, high_mm - row * step_y),
        )
        for row in range(rows)
        for column in range(columns)
    )


def _n(long: float, most: float) -> int:
    """Return how many windows of a length cover a length with overlap."""
    return 1 if long <= most else 1 + math.ceil((long - most) / (most - OVERLAP_MM))


def name_of(tile: Tile) -> str:
    """Return a tile's name: a letter for the column, a number for the row, from the lower left."""
    return f"{chr(ord('A') + tile.column % 26)}{tile.row + 1}"


def moved(points: tuple[Point, ...], tile: Tile, lift_mm: float) -> tuple[Point, ...]:
    """Return points where the tile shows them."""
    return tuple((x - tile.x_mm + 1.0, y - tile.y_mm + lift_mm) for x, y in points)


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """The line on which two tiles meet, in the template's mm: the middle of their overlap."""

    other: Tile
    ends: tuple[Point, Point]

    @property
    def marks(self) -> tuple[Point, Point]:
        """Two places on it, the same for both tiles."""
        (x, y), (u, v) = self.ends
        return (x + 0.25 * (u - x), y + 0.25 * (v - y)), (x + 0.75 * (u - x), y + 0.75 * (v - y))


def seams_of(tile: Tile, tiles: Sequence[Tile]) -> tuple[Seam, ...]:
    """Return the seams of a tile with its neighbours: left, below, right, above, as far as there are any."""
    places = {(other.column, other.row): other for other in tiles}
    found = []
    for column, row in ((-1, 0), (0, -1), (1, 0), (0, 1)):
        other = places.get((tile.column + column, tile.row + row))
        if other is None:
            continue
        low = (max(tile.x_mm, other.x_mm), max(tile.y_mm, other.y_mm))
        high = (
            min(tile.x_mm + tile.width_mm, other.x_mm + other.width_mm),
            min(tile.y_mm + tile.height_mm, other.y_mm + other.height_mm),
        )
        middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
        ends = ((middle[0], low[1]), (middle[0], high[1])) if column else ((low[0], middle[1]), (high[0], middle[1]))
        found.append(Seam(other=other, ends=ends))
    return tuple(found)


def seam_shapes(tile: Tile, tiles: Sequence[Tile], lift_mm: float) -> tuple[list[Shape], list[Label]]:
    """Return the dashed lines on which a tile meets its neighbours, with diamonds and the neighbours' names."""
    shapes, labels = [], []
    for seam in seams_of(tile, tiles):
        shapes.append(Shape(rings=(moved(seam.ends, tile, lift_mm),), closed=False, dashed=True, stroke_mm=0.2))
        for x, y in seam.marks:
            diamond = ((x - MARK_MM, y), (x, y - MARK_MM), (x + MARK_MM, y), (x, y + MARK_MM))
            shapes.append(Shape(rings=(moved(diamond, tile, lift_mm),), stroke_mm=0.2))
        (x, y), (u, v) = seam.ends
        inward = 4.0 if seam.other.column < tile.column else -4.0 if seam.other.column > tile.column else 0.0
        upward = 2.0 if seam.other.row < tile.row else -4.5 if seam.other.row > tile.row else 0.0
        ((a, b),) = moved((((x + u) / 2 + inward, (y + v) / 2 + upward),), tile, lift_mm)
        labels.append(Label(at=(a, b), text=name_of(seam.other), size_mm=3.4))
    return shapes, labels


def tile_words(tile: Tile, tiles: Sequence[Tile], tongue: Tongue = ENGLISH) -> str:
    """Say how a tile is glued to those that lie there before it."""
    before = [s.other for s in seams_of(tile, tiles) if (s.other.column, s.other.row) < (tile.column, tile.row)]
    say = tongue.say
    phrase = say(
        "Tiles overlap by {mm}. Join them on the dashes, diamond on diamond.", mm=tongue.amount(f"{OVERLAP_MM:g} mm")
    )
    if not before:
        return f"{phrase} {say('Leave this one whole; lay the others on it.')}"
    sides = [say("left") if other.column < tile.column else say("lower") for other in before]
    cut = say(
        "Cut this sheet along these dashes: {sides}. Lay it on {tiles}. Measure the joined pattern before you cut by "
        "it.",
        sides=tongue.listed(sides),
        tiles=tongue.listed(tongue.kept(name_of(other)) for other in before),
    )
    return f"{phrase} {cut}"


def tile_map(tile: Tile, tiles: Sequence[Tile], at: Point) -> tuple[list[Shape], list[Label]]:
    """Return a small map of all tiles with this one grey, its lower left corner at a place."""
    wide, high = (
        max(getattr(t, a) + getattr(t, b) for t in tiles) for a, b in (("x_mm", "width_mm"), ("y_mm", "height_mm"))
    )
    k = MAP_MM / max(wide, high)
    shapes, labels = [], []
    for one in sorted(tiles, key=lambda t: t == tile):
        fill = 0.86 if one == tile else None
        x, y = at[0] + k * one.x_mm, at[1] + k * one.y_mm
        shapes.append(box(x, y, k * one.width_mm, k * one.height_mm, fill=fill, stroke_mm=0.2))
        labels.append(
            Label(at=(x + k * one.width_mm / 2, y + k * one.height_mm / 2 - 1.2), text=name_of(one), size_mm=3.2)
        )
    return shapes, labels
