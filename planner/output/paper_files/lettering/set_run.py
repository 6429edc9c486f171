"""A run of letters of one script, shaped by HarfBuzz: where each glyph stands, and which letters it stands for.

A run keeps to one line. Digits in a run from right to left run from left to right among themselves (Unicode Standard
Annex 9, rules W2 to L2, for the one case that names bring: a name with a number in it).
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

import uharfbuzz as hb

from planner.output.paper_files.lettering.script_faces import ScriptFace, runs_left


@dataclass(frozen=True, slots=True, kw_only=True)
class SetGlyph:
    """A glyph by its number, and where its origin stands, in ems from the run's left end and from the baseline."""

    glyph: int
    x_em: float
    y_em: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SetRun:
    """A shaped run: its glyphs from left to right, its width in ems, and its letters with their places.

    ``letters`` are what was written, in the order in which it is read: each group with its left end and width in ems.
    """

    face: ScriptFace
    bold: bool
    glyphs: tuple[SetGlyph, ...]
    width_em: float
    letters: tuple[tuple[str, float, float], ...]


def set_run(text: str, face: ScriptFace, *, bold: bool) -> SetRun:
    """Shape a run of one script; ``text`` in the order in which it is read."""
    font = face.font(bold=bold)
    leftward = any(map(runs_left, text))
    groups = [(left, "".join(letters)) for left, letters in groupby(text, lambda one: leftward and not one.isdigit())]
    glyphs: list[SetGlyph] = []
    letters: list[list[tuple[str, float, float]]] = []
    at_em = 0.0
    for left, group in reversed(groups) if leftward else groups:
        some, width_em, named = _shaped(group, font, face.outlines.upem, "rtl" if left else "ltr")
        glyphs += [SetGlyph(glyph=one.glyph, x_em=one.x_em + at_em, y_em=one.y_em) for one in some]
        letters.append([(word, x_em + at_em, wide_em) for word, x_em, wide_em in named])
        at_em += width_em
    read = [pair for group in (reversed(letters) if leftward else letters) for pair in group]
    return SetRun(face=face, bold=bold, glyphs=tuple(glyphs), width_em=at_em, letters=tuple(read))


def _shaped(
    text: str, font: hb.Font, upem: int, way: str
) -> tuple[list[SetGlyph], float, list[tuple[str, float, float]]]:
    """Return glyphs from left to right, the width in ems, and the letters of each cluster in the order of reading."""
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    buffer.direction = way
    hb.shape(font, buffer)
    glyphs: list[SetGlyph] = []
    lefts: dict[int, int] = {}
    widths: dict[int, int] = {}
    at = 0
    for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        glyphs.append(
            SetGlyph(glyph=info.codepoint, x_em=(at + place.x_offset) / upem, y_em=place.y_offset / upem),
        )
        lefts.setdefault(info.cluster, at)
        widths[info.cluster] = widths.get(info.cluster, 0) + place.x_advance
        at += place.x_advance
    starts = sorted(lefts)
    ends = [*starts[1:], len(text)]
    named = [
        (text[start:end], lefts[start] / upem, widths[start] / upem) for start, end in zip(starts, ends, strict=True)
    ]
    return glyphs, at / upem, named
