"""Where the pieces of one line stand from left to right, when some of it runs from right to left.

The levels are those of the Unicode Bidirectional Algorithm (UAX 9), found by python-bidi; lines are reordered by its
rule L2. What is drawn is drawn in the order of reading, so that a text copied from the PDF reads as it was written.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from bidi import algorithm
from bidi.mirror import MIRRORED
from reportlab.pdfbase.pdfmetrics import stringWidth

from planner.output.paper_files.lettering.lettered import drawn
from planner.output.paper_files.lettering.script_faces import ScriptFace
from planner.output.paper_files.lettering.script_runs import JOINERS, Piece, pieces
from planner.output.paper_files.type_face import BOLD, shown
from planner.output.tongue import KEPT_LEFT_TO_RIGHT


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A piece with its left end from the left end of its line, and its width, in points."""

    text: str
    face: ScriptFace | None
    left_pt: float
    wide_pt: float
    turned: bool = False
    """Whether it is drawn as in a mirror: a bracket in a run that goes leftward; as text it stays what was written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedLine:
    """One line: its pieces in the order in which they are read."""

    pieces: tuple[Placed, ...]
    wide_pt: float


@lru_cache(maxsize=4096)
def placed_line(text: str, font: str, size_pt: float, *, leftward: bool) -> PlacedLine:
    """Return a line set in a font and a size; ``leftward`` where its paragraph runs from right to left."""
    runs = level_runs(text, leftward=leftward)
    parts = [_measured(run, font, size_pt, odd=level % 2 == 1) for run, level in runs]
    widths = [sum(wide for _, wide in some) for some in parts]
    lefts, at = [0.0] * len(runs), 0.0
    for index in visual_order([level for _, level in runs]):
        lefts[index] = at
        at += widths[index]
    found = []
    for (_, level), some, left, wide in zip(runs, parts, lefts, widths, strict=True):
        pen = left + (wide if level % 2 else 0.0)
        for piece, one in some:
            pen -= one if level % 2 else 0.0
            turned = piece.face is None and level % 2 == 1 and piece.text in MIRRORED
            found.append(Placed(text=piece.text, face=piece.face, left_pt=pen, wide_pt=one, turned=turned))
            pen += 0.0 if level % 2 else one
    return PlacedLine(pieces=tuple(found), wide_pt=at)


def draw_line(canvas: Any, at: tuple[float, float], line: PlacedLine, font: str, size_pt: float) -> None:
    """Draw a line with its left end at a point, in points."""
    canvas.setFont(font, size_pt)
    for one in line.pieces:
        if one.turned:
            canvas.saveState()
            canvas.translate(at[0] + one.left_pt + one.wide_pt, at[1])
            canvas.scale(-1.0, 1.0)
            canvas.drawString(0.0, 0.0, one.text)
            canvas.restoreState()
        elif one.face is None:
            canvas.drawString(at[0] + one.left_pt, at[1], one.text)
        else:
            drawn(one.text, one.face, bold=font == BOLD, size_pt=size_pt).draw(canvas, at[0] + one.left_pt, at[1])


def level_runs(text: str, *, leftward: bool) -> list[tuple[str, int]]:
    """Return the runs of one embedding level each, in the order of reading; marks of direction are taken out.

    >>> level_runs("وزن 12 g", leftward=True)
    [('وزن ', 1), ('12', 2), (' ', 1), ('g', 2)]
    >>> level_runs("a 12 b", leftward=False)
    [('a 12 b', 0)]
    """
    storage = algorithm.get_empty_storage()
    storage["base_level"], storage["base_dir"] = (1, "R") if leftward else (0, "L")
    algorithm.get_embedding_levels(_with_pairs(text) if leftward else text, storage)
    algorithm.explicit_embed_and_overrides(storage)
    algorithm.resolve_weak_types(storage)
    algorithm.resolve_neutral_types(storage, debug=False)
    algorithm.resolve_implicit_levels(storage, debug=False)
    found: list[tuple[str, int]] = []
    for one in storage["chars"]:
        letter, level = one["ch"], one["level"]
        if unicodedata.category(letter) == "Cf" and letter not in JOINERS:
            continue
        if found and found[-1][1] == level:
            found[-1] = (found[-1][0] + letter, level)
        else:
            found.append((letter, level))
    return found


def _with_pairs(text: str) -> str:
    """Return a text in which brackets round Latin words, after Latin words, stay with them (UAX 9, rule N0).

    The library that finds the levels leaves this rule out. A mark of direction behind the bracket does the same.

    >>> _with_pairs("deck (plate 2) ثم").index("\u200e")
    14
    """
    found, opened = "", list[int]()
    for letter in text:
        found += letter
        if letter in "([{":
            opened.append(len(found) - 1)
        elif letter in ")]}" and opened:
            start = opened.pop()
            inside, before = _strong(found[start:]), _strong(found[:start])
            if inside and not any(inside) and before and not before[-1]:
                found += KEPT_LEFT_TO_RIGHT
    return found


def _strong(text: str) -> list[bool]:
    """Return of each strong letter of a text whether it runs from right to left."""
    kinds = [unicodedata.bidirectional(letter) for letter in text]
    return [kind != "L" for kind in kinds if kind in ("L", "R", "AL")]


def visual_order(levels: list[int]) -> list[int]:
    """Return the numbers of the runs from left to right (UAX 9, rule L2).

    >>> visual_order([1, 2, 1, 2]), visual_order([0, 1, 2, 1, 0])
    ([3, 2, 1, 0], [0, 3, 2, 1, 4])
    """
    order = list(range(len(levels)))
    odd = [level for level in levels if level % 2]
    for level in range(max(levels, default=0), min(odd, default=1) - 1, -1):
        at = 0
        while at < len(order):
            end = at
            while end < len(order) and levels[order[end]] >= level:
                end += 1
            order[at:end] = reversed(order[at:end])
            at = max(end, at + 1)
    return order


def _measured(run: str, font: str, size_pt: float, *, odd: bool) -> list[tuple[Piece, float]]:
    """Return the pieces of a run with their widths; signs of the papers' own face that run leftward stand alone."""
    found: list[tuple[Piece, float]] = []
    for piece in pieces(run):
        if piece.face is not None:
            found.append((piece, drawn(piece.text, piece.face, bold=font == BOLD, size_pt=size_pt).width))
            continue
        for text in piece.text if odd else (piece.text,):
            told = shown(text)
            found.append((Piece(text=told, face=None), stringWidth(told, font, size_pt)))
    return found
