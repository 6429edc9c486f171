"""Texts in several scripts: as a paragraph whose lines break, and as one line on the canvas."""

from __future__ import annotations

from functools import lru_cache
from html import escape
from typing import Any

from reportlab.lib.abag import ABag
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Paragraph

from planner.output.paper_files.lettering.drawn_run import DrawnRun
from planner.output.paper_files.lettering.script_faces import ScriptFace
from planner.output.paper_files.lettering.script_runs import Piece, follows, pieces
from planner.output.paper_files.lettering.set_run import set_run
from planner.output.paper_files.type_face import BOLD, shown

TRACE_PT = 0.01
"""A run as wide as its column is not too wide; type of this size is not seen."""


class Lettered(Paragraph):  # type: ignore[misc]  # the library ships no types
    """A paragraph with runs of further scripts; a run that is wider than its column is parted over lines."""

    pieces: tuple[Piece, ...] = ()

    def wrap(self, wide: float, high: float) -> tuple[float, float]:
        """Lay the pieces out for a width, all in points."""
        if self.pieces:
            self.frags = _frags(self.pieces, self.style, wide)
        size: tuple[float, float] = super().wrap(wide, high)
        return size


def lettered(text: str, style: ParagraphStyle) -> Paragraph:
    """Return a paragraph; nothing in the text is taken for markup."""
    found = pieces(text)
    if all(one.face is None for one in found):
        return Paragraph(escape(shown(text), quote=False), style)
    made = Lettered("", style, frags=_frags(found, style, float("inf")))
    made.pieces = found
    return made


def write(canvas: Any, at: tuple[float, float], text: str, font: str, size_pt: float, *, middle: bool = False) -> None:
    """Write one line with its left end, or its middle, at a point; all in points."""
    runs = [
        shown(one.text) if one.face is None else drawn(one.text, one.face, bold=font == BOLD, size_pt=size_pt)
        for one in pieces(text)
    ]
    widths = [stringWidth(one, font, size_pt) if isinstance(one, str) else one.width for one in runs]
    x, y = at[0] - (sum(widths) / 2.0 if middle else 0.0), at[1]
    canvas.setFont(font, size_pt)
    for one, wide in zip(runs, widths, strict=True):
        if isinstance(one, str):
            canvas.drawString(x, y, one)
        else:
            one.draw(canvas, x, y)
        x += wide


@lru_cache(maxsize=4096)
def drawn(text: str, face: ScriptFace, *, bold: bool, size_pt: float) -> DrawnRun:
    """Return a run at a size in points."""
    return DrawnRun(run=set_run(text, face, bold=bold), size_pt=size_pt)


def _frags(some: tuple[Piece, ...], style: ParagraphStyle, wide: float) -> list[Any]:
    """Return the pieces as the library's fragments, for a column's width in points.

    The library counts no blank between two pictures: there it is part of the first one's width. Nor does it end a line
    in which there are pictures alone: a blank too small to be seen begins such a line.
    """
    plain, blank = Paragraph("x", style).frags[0], stringWidth(" ", style.fontName, style.fontSize)
    begin = plain.clone(text="\u00a0", fontSize=TRACE_PT)
    found: list[Any] = [begin] if some[0].face is not None else []
    for index, one in enumerate(some):
        if one.face is not None:
            rows = _rows(one.text, one.face, style, wide)
            for row in rows[:-1]:
                found += [_placed(plain, row, one.face, style), plain.clone(text="", lineBreak=True), begin]
            found.append(_placed(plain, rows[-1], one.face, style, blank if _parts_runs(some, index + 1) else 0.0))
        elif not _parts_runs(some, index):
            found.append(plain.clone(text=shown(one.text)))
    return found


def _placed(plain: Any, text: str, face: ScriptFace, style: ParagraphStyle, more: float = 0.0) -> Any:
    """Return a run as a fragment with a picture in it, so many points wider than the run."""
    run = drawn(text, face, bold=style.fontName == BOLD, size_pt=style.fontSize)
    place = ABag(kind="img", image=run, width=run.width + more, height=style.fontSize, valign="baseline")
    return plain.clone(text="", cbDefn=place)


def _parts_runs(some: tuple[Piece, ...], index: int) -> bool:
    """Return whether a piece is nothing but a blank between two runs."""
    return 0 < index < len(some) - 1 and some[index].face is None and some[index].text == " "


def _rows(text: str, face: ScriptFace, style: ParagraphStyle, wide: float) -> list[str]:
    """Return a run parted into rows of a column's width at most: at blanks where it has some, else between letters."""

    def fits(some: str) -> bool:
        return drawn(some, face, bold=style.fontName == BOLD, size_pt=style.fontSize).width <= wide + TRACE_PT

    if fits(text):
        return [text]
    words = text.split(" ")
    blank = " " if len(words) > 1 else ""
    rows = [""]
    for word in words if blank else _letters(text):
        longer = rows[-1] + (blank if rows[-1] else "") + word
        if not rows[-1] or fits(longer):
            rows[-1] = longer
        else:
            rows.append(word)
    return [part for row in rows for part in (_rows(row, face, style, wide) if blank and not fits(row) else [row])]


def _letters(text: str) -> list[str]:
    """Return letters with their marks."""
    found: list[str] = []
    for letter in text:
        if found and follows(letter):
            found[-1] += letter
        else:
            found.append(letter)
    return found
