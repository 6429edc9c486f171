"""Padding templates at true size, with a control square; those larger than the paper in tiles to glue together."""

from __future__ import annotations

import math
from dataclasses import replace

import shapely

from planner.job import Padding
from planner.output.bench.translated import own_head, unsigned
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
from planner.output.tongue import ENGLISH, Tongue
from planner.plan import Plan, PlannedPart

TRANSLATED_MM = 24.0
"""Room that the words over a template take more in another language: who translated them, and English below."""
TRUE_MM = 0.5
"""A ruler reads no finer: off by more, and the printer has scaled."""


def padding_templates(plan: Plan, size: PageSize, tongue: Tongue = ENGLISH) -> Sheet:
    """Return a card for every piece of padding: its template, or why there is none."""
    cards: list[Card] = []
    for padding in plan.job.paddings:
        part = next(p for p in plan.parts if p.part.name == padding.part)
        cards += _cards(padding, part, size, tongue)
    title = tongue.say("Padding templates")
    if not cards:
        none = Words(text=tongue.say("The job names no padding: there is nothing to cut out."), tone="strong")
        cards = [Card(title=title, blocks=(none,))]
    first = replace(cards[0], blocks=(*unsigned(tongue), *cards[0].blocks))
    return Sheet(name="padding", title=title, cards=(first, *cards[1:]), head=own_head(plan, tongue))


def rings_at_size(padding: Padding, part: PlannedPart) -> tuple[tuple[Point, ...], ...] | None:
    """Return the outline at the part's size, mirrored where the part is; None where it has none to scale evenly."""
    if not padding.rings_mm or len({round(value, 9) for value in part.scale_percent}) > 1:
        return None
    factor = part.scale_percent[0] / 100.0
    wide = max(x for ring in padding.rings_mm for x, _ in ring)
    if part.mirrored:
        return tuple(tuple(((wide - x) * factor, y * factor) for x, y in ring[::-1]) for ring in padding.rings_mm)
    return tuple(tuple((x * factor, y * factor) for x, y in ring) for ring in padding.rings_mm)


def _cards(padding: Padding, part: PlannedPart, size: PageSize, tongue: Tongue) -> list[Card]:
    """Return the cards of one piece of padding."""
    say, amount = tongue.say, tongue.amount
    title = say("Padding of {part}", part=tongue.kept(padding.part))
    rings = rings_at_size(padding, part)
    if rings is None:
        return [Card(title=title, blocks=_without(padding, part, tongue))]
    wide, high = (max(p[axis] for ring in rings for p in ring) for axis in (0, 1))
    whole = _whole(rings)
    tiles = tuple(
        t
        for t in tiles_of(wide, high, size, 0.0 if tongue.code == "en" else TRANSLATED_MM)
        if whole.intersects(window(t))
    )
    cards = []
    for tile in tiles:
        named = (
            title
            if len(tiles) == 1
            else say("{title}, tile {name} of {count}", title=title, name=name_of(tile), count=str(len(tiles)))
        )
        blocks: list[Block] = [
            Words(
                text=say(
                    "{thick} thick, {size} over all, {area}. True size: print at {percent}, do not fit to the page.",
                    thick=amount(f"{padding.thickness_mm:g} mm"),
                    size=amount(f"{wide:.1f} × {high:.1f} mm"),
                    area=amount(f"{whole.area / 100:.1f} cm²"),
                    percent=amount("100 %"),
                ),
            ),
            Words(
                text=tongue.beside(_square),
                tone="warning",
            ),
            *([Words(text=tile_words(tile, tiles, tongue))] if len(tiles) > 1 else []),
            Picture(drawing=template(rings, tile, tiles, padding.part, tongue)),
        ]
        cards.append(Card(title=named, blocks=tuple(blocks)))
    return cards


def _square(tongue: Tongue) -> str:
    """Return what the control square must measure."""
    return tongue.say(
        "Measure the square first: it must be {square} each way, within {off}. If it is not, do not cut.",
        square=tongue.amount(f"{SQUARE_MM:g} mm"),
        off=tongue.amount(f"{TRUE_MM:g} mm"),
    )


def _without(padding: Padding, part: PlannedPart, tongue: Tongue) -> tuple[Block, ...]:
    """Say why there is no template, and how to make one."""
    uneven = bool(padding.rings_mm)
    area = None if padding.area_mm2 is None else padding.area_mm2 * (math.prod(part.scale_percent) / 1e6) ** (2 / 3)
    say, amount = tongue.say, tongue.amount
    why = (
        say("There is no template: the part is scaled unevenly.")
        if uneven
        else say("There is no template: the job gives only its area, not its outline.")
    )
    if area:
        why = f"{why} {say('About {area} is needed.', area=amount(f'{area / 100:.0f} cm²'))}"
    thick = amount(f"{padding.thickness_mm:g} mm")
    return (
        Words(text=why, tone="strong"),
        Ticks(
            steps=(
                say(
                    "Lay paper into {part}, rub along the edges, and cut {mm} inside the line.",
                    part=tongue.kept(padding.part),
                    mm=amount("2 mm"),
                ),
                say("Try the paper on the part, then use it to cut the {thick} padding.", thick=thick),
            )
        ),
        Words(
            text=say(
                "To get a template next time, add {key}, drawn in mm at {percent}.",
                key=tongue.kept('[[padding]] outline = "pad.svg"'),
                percent=amount("100 %"),
            ),
            tone="small",
        ),
    )


def _whole(rings: tuple[tuple[Point, ...], ...]) -> shapely.Geometry:
    """Return the area inside the rings by the even-odd rule."""
    whole: shapely.Geometry = shapely.Polygon()
    for ring in rings:
        whole = whole.symmetric_difference(shapely.Polygon(ring))
    return whole


def template(
    rings: tuple[tuple[Point, ...], ...], tile: Tile, tiles: tuple[Tile, ...], part: str, tongue: Tongue = ENGLISH
) -> Drawing:
    """Return one tile at true size: the outline above, the control square in the strip below."""
    say, lift_mm, wide_mm = tongue.say, STRIP_MM, max(tile.width_mm + 2.0, SQUARE_MM + 90.0)
    named = tongue.kept(part)
    cut_here = (
        say("{part}: cut on the line", part=named)
        if len(tiles) == 1
        else say("{part}: cut on the line; this is tile {tile}", part=named, tile=name_of(tile))
    )
    beside_mm = SQUARE_MM + 6.0
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
        Label(at=(middle, middle + 1.0), text=tongue.amount(f"{SQUARE_MM:g} × {SQUARE_MM:g} mm"), size_mm=4.4),
        Label(at=(middle, middle - 5.0), text=say("control square"), size_mm=3.4),
        Label(
            at=(beside_mm, 1.0 + SQUARE_MM / 2 if len(tiles) == 1 else 46.0),
            text=cut_here,
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
        width_mm=wide_mm,
        height_mm=lift_mm + tile.height_mm + 1.0,
        about=say(
            "Template of the padding of {part} at true size, with a control square of {square}",
            part=part,
            square=tongue.number(f"{SQUARE_MM:g} mm"),
        ),
        shapes=tuple(shapes),
        labels=tuple(labels),
        true_size=True,
    )
