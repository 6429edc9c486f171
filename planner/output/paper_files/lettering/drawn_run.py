"""A shaped run on the PDF's canvas: its outlines filled, and its letters over them as text that nobody sees.

Glyphs that stand for several letters, or for one of four forms, have no code of their own. So the outlines are drawn as
paths, and what is copied or searched is the text as it was written, where it stands (ISO 32000-2, 9.3.6, mode 3). Each
glyph's outline stands in the file once, as a form that is placed as often as it is met (8.10): Arabic and Hindi papers
are a tenth as heavy as with every outline written out.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import ceil, floor
from typing import Any

from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFFormXObject
from reportlab.pdfbase.pdfmetrics import stringWidth

from planner.output.paper_files.lettering.script_faces import ScriptFace
from planner.output.paper_files.lettering.set_run import SetRun

INVISIBLE = 3
"""The text rendering mode that neither fills nor strokes (ISO 32000-2, table 104)."""
Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnRun:
    """A run at a size in points; the PDF library draws it where an inline picture would stand."""

    run: SetRun
    size_pt: float

    @property
    def width(self) -> float:
        """Its width in points."""
        return self.run.width_em * self.size_pt

    def draw(self, canvas: Any, x: float, y: float) -> None:
        """Draw it with its left end and its baseline at a point, in points."""
        for one in self.run.glyphs:
            form = _form(canvas, self.run, one.glyph)
            if form:
                canvas.saveState()
                left, foot = x + one.x_em * self.size_pt, y + one.y_em * self.size_pt
                canvas.transform(self.size_pt, 0.0, 0.0, self.size_pt, left, foot)
                canvas.doForm(form)
                canvas.restoreState()
        name = self.run.face.coded_as
        for letters, left_em, width_em in self.run.letters:
            text = canvas.beginText(x + left_em * self.size_pt, y)
            text.setTextRenderMode(INVISIBLE)
            text.setFont(name, self.size_pt)
            alone = stringWidth(letters, name, 1.0)
            text.setHorizScale(100.0 * width_em / alone if alone and width_em else 100.0)
            text.textOut(letters)
            text.setHorizScale(100.0)
            text.setTextRenderMode(0)
            canvas.drawText(text)


def _form(canvas: Any, run: SetRun, glyph: int) -> str:
    """Return the name of the form that fills a glyph at one point; made where the file has none; empty for a blank."""
    name = f"{run.face.coded_as}-{glyph}{'b' if run.bold else ''}"
    if canvas.hasForm(name):
        return name
    pen = _outline(run.face, glyph, bold=run.bold)
    if not pen.steps:
        return ""
    made = PDFFormXObject(*pen.box)
    made.Matrix = PDFArray([1.0 / run.face.outlines.upem, 0, 0, 1.0 / run.face.outlines.upem, 0, 0])
    made.Resources = PDFDictionary({})
    made.compression = 1
    made.setStreamList([*pen.steps, "f"])
    canvas._doc.addForm(name, made)  # noqa: SLF001  the canvas makes forms only from what is drawn on it
    return name


@cache
def _outline(face: ScriptFace, glyph: int, *, bold: bool) -> _Pen:
    """Return a glyph's outline."""
    pen = _Pen()
    face.font(bold=bold).draw_glyph_with_pen(glyph, pen)
    return pen


class _Pen:
    """Takes the outline of a glyph in its own units as steps of a path; the methods' names are those of all pens."""

    def __init__(self) -> None:
        """Start without a step."""
        self.steps: list[str] = []
        self.points: list[Point] = []

    @property
    def box(self) -> tuple[int, int, int, int]:
        """A box that holds every point, and so every curve: left, lower, right, upper."""
        xs, ys = zip(*self.points, strict=True)
        return floor(min(xs)), floor(min(ys)), ceil(max(xs)), ceil(max(ys))

    def _add(self, sign: str, *points: Point) -> None:
        """Write one step."""
        self.points += points
        self.steps.append(" ".join([*(f"{value:.1f}".removesuffix(".0") for one in points for value in one), sign]))

    def moveTo(self, point: Point) -> None:  # noqa: N802  the library's own names, here and below
        """Begin a contour."""
        self._add("m", point)

    def lineTo(self, point: Point) -> None:  # noqa: N802
        """Draw a line."""
        self._add("l", point)

    def curveTo(self, *points: Point) -> None:  # noqa: N802
        """Draw a cubic curve."""
        self._add("c", *points)

    def qCurveTo(self, *points: Point) -> None:  # noqa: N802
        """Draw a quadratic curve as the cubic one that equals it: its inner points lie at two thirds of the way."""
        middle, end = points
        inner = [
            (a[0] + (middle[0] - a[0]) * 2.0 / 3.0, a[1] + (middle[1] - a[1]) * 2.0 / 3.0)
            for a in (self.points[-1], end)
        ]
        self._add("c", *inner, end)

    def closePath(self) -> None:  # noqa: N802
        """Close a contour."""
        self.steps.append("h")

    def endPath(self) -> None:  # noqa: N802
        """End an open contour; an outline has none."""
