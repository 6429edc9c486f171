"""Patterns on paper at 1 : 1: tiles with marks, a control square, and a ruler of 100 mm to check the print with."""

from __future__ import annotations

import math
from dataclasses import replace

import shapely

from planner import __version__
from planner.finding import Verdict, worst
from planner.output.drawing.shapes import Drawing, Label, Shape
from planner.output.paper_files.page_size import PageSize
from planner.output.paper_files.sheet import Block, Card, Head, Picture, Sheet, Words
from planner.output.paper_files.tiles import SQUARE_MM, STRIP_MM, Tile, moved, name_of, tile_words, tiles_of, window
from planner.output.papers.padding import TRUE_MM, template
from planner.output.pattern.pattern_svg import CROSS_MM
from planner.output.pattern.pattern_words import (
    BUCK_CAUTION,
    SKIN_SIDE,
    dart_ticks,
    dart_words,
    mark_words,
    method_words,
    size_words,
)
from planner.output.words.paper_words import LETTERS, percent
from planner.pattern import Flat, Pattern
from planner.plan import PaddingPatterns

RULER_MM = 100.0
NUMBER_MM = 2.5
"""How far a dart's number stands off its tick."""
RULER_AT_MM = (SQUARE_MM + 6.0, 52.5)
"""Where the ruler begins: beside the square, above the map of tiles."""


def pattern_sheet(found: PaddingPatterns, size: PageSize) -> Sheet:
    """Return the cards of all patterns of a job: tiles at true size, or why there is none."""
    cards: list[Card] = []
    for pattern in found.patterns:
        cards += _cards(pattern, pattern.flat, size) if pattern.flat is not None else [_without(pattern)]
    if any(pattern.buck is not None for pattern in found.patterns):
        blocks = (
            Words(text=BUCK_CAUTION, tone="warning"),
            Words(
                text="The file stands on its flat base as it prints. Padding is laid over it, then what goes over it."
            ),
        )
        cards.append(Card(title="Forming bucks", blocks=blocks))
    return Sheet(name="patterns", title="Padding patterns", cards=tuple(cards), head=pattern_head(found))


def pattern_head(found: PaddingPatterns) -> Head:
    """Return what stands over every card."""
    job, verdict = found.job, worst(found.findings)
    side = job.size.side
    return Head(
        job=job.name,
        recipient="" if job.recipient in job.name.split() else job.recipient,
        size=percent(found.percent),
        letter=LETTERS[side] if side else "",
        side=f"{side} side" if side else "no side stated",
        maker=f"fitwright {__version__}: checks shape only; it does not judge fit on a body or anything medical.",
        bar="" if verdict.passes else f"{verdict.value.upper()}: do not cut before what the command lists is settled",
    )


def _cards(pattern: Pattern, flat: Flat, size: PageSize) -> list[Card]:
    """Return the tiles of one pattern."""
    whole = shapely.Polygon(flat.rings[0])
    tiles = tuple(tile for tile in tiles_of(*flat.size_mm, size) if whole.intersects(window(tile)))
    cards = []
    for tile in tiles:
        many = len(tiles) > 1
        blocks: list[Block] = [
            Words(text=f"{size_words(pattern, flat)}; {method_words(flat)}. {SKIN_SIDE} Print at 100 %, do not fit."),
            Words(
                text=f"Measure the ruler and the square first: {RULER_MM:g} mm and {SQUARE_MM:g} mm, within "
                f"{TRUE_MM:g} mm. If they are not, do not cut.",
                tone="warning",
            ),
            *([Words(text=tile_words(tile, tiles))] if many else []),
            *([Words(text=mark_words(flat), tone="small")] if flat.marks and tile == tiles[0] else []),
            *([Words(text=dart_words(flat), tone="strong")] if flat.darts and tile == tiles[0] else []),
            Picture(drawing=drawn(flat, tile, tiles, pattern.part)),
        ]
        place = f", tile {name_of(tile)} of {len(tiles)}" if many else ""
        cards.append(Card(title=f"Padding of {pattern.part}{place}", blocks=tuple(blocks)))
    return cards


def drawn(flat: Flat, tile: Tile, tiles: tuple[Tile, ...], part: str) -> Drawing:
    """Return one tile at true size, with ruler and crosses."""
    base = template(flat.rings, tile, tiles, part)
    crosses = []
    for x, y in flat.marks:
        if window(tile).contains(shapely.Point(x, y)):
            level, upright = ((x - CROSS_MM, y), (x + CROSS_MM, y)), ((x, y - CROSS_MM), (x, y + CROSS_MM))
            crosses += [
                Shape(rings=(moved(ends, tile, STRIP_MM),), closed=False, stroke_mm=0.2) for ends in (level, upright)
            ]
    ticks_of, numbers = dart_ticks(flat), []
    for number, one, other in ticks_of:
        if window(tile).contains(shapely.Point(one)):
            crosses.append(Shape(rings=(moved((one, other), tile, STRIP_MM),), closed=False, stroke_mm=0.3))
            (at,) = moved((other,), tile, STRIP_MM)
            away = 1.0 + NUMBER_MM / max(math.dist(one, other), 1e-9)
            (start,) = moved((one,), tile, STRIP_MM)
            far = tuple(start[k] + away * (at[k] - start[k]) for k in range(2))
            numbers.append(Label(at=(far[0], far[1] - 1.0), text=number, size_mm=3.0))
    x, y = RULER_AT_MM
    ticks = [
        Shape(rings=(((x + k, y), (x + k, y + (3.0 if k % 50 == 0 else 1.6))),), closed=False, stroke_mm=0.2)
        for k in range(0, int(RULER_MM) + 1, 10)
    ]
    rule = Shape(rings=(((x, y), (x + RULER_MM, y)),), closed=False, stroke_mm=0.2)
    told = Label(at=(x + RULER_MM / 2 + 25.0, y - 3.4), text=f"{RULER_MM:g} mm", size_mm=3.2)
    return replace(
        base,
        width_mm=max(base.width_mm, x + RULER_MM + 2.0),
        shapes=(*base.shapes, rule, *ticks, *crosses),
        labels=(*base.labels, told, *numbers),
    )


def _without(pattern: Pattern) -> Card:
    """Say why there is no pattern."""
    held = next(finding for finding in pattern.findings if finding.verdict is Verdict.HOLD)
    blocks = (
        Words(text=held.why, tone="strong"),
        Words(text=held.remedy or f"Lay paper into {pattern.part}, rub along its edges, and cut it out."),
    )
    return Card(title=f"Padding of {pattern.part}", blocks=blocks)
