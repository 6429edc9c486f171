"""A shaped run on the PDF's canvas: its outlines filled, and its letters over them as text that nobody sees.

Glyphs that stand for several letters, or for one of four forms, have no code of their own. So the outlines are drawn as
paths, and what is copied or searched is the text as it was written, where it stands (ISO 32000-2, 9.3.6, mode 3).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from reportlab.pdfbase.pdfmetrics import stringWidth

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
        font, unit = self.run.face.font(bold=self.run.bold), self.size_pt / self.run.face.outlines.upem
        path = canvas.beginPath()
        for one in self.run.glyphs:
            pen = _Pen(path, x + one.x_em * self.size_pt, y + one.y_em * self.size_pt, unit)
            font.draw_glyph_with_pen(one.glyph, pen)
        canvas.drawPath(path, stroke=0, fill=1, fillMode=1)
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


class _Pen:
    """Takes the outline of a glyph in its own units, and adds it to a path in points; names are those of all pens."""

    def __init__(self, path: Any, x: float, y: float, unit: float) -> None:
        """Start at the glyph's origin."""
        self.path, self.x, self.y, self.unit = path, x, y, unit
        self.last: Point = (x, y)

    def _at(self, point: Point) -> Point:
        """Return a point of the glyph on the page."""
        return self.x + point[0] * self.unit, self.y + point[1] * self.unit

    def moveTo(self, point: Point) -> None:  # noqa: N802  the library's own names, here and below
        """Begin a contour."""
        self.last = self._at(point)
        self.path.moveTo(*self.last)

    def lineTo(self, point: Point) -> None:  # noqa: N802
        """Draw a line."""
        self.last = self._at(point)
        self.path.lineTo(*self.last)

    def curveTo(self, *points: Point) -> None:  # noqa: N802
        """Draw a cubic curve."""
        one, two, end = map(self._at, points)
        self.path.curveTo(*one, *two, *end)
        self.last = end

    def qCurveTo(self, *points: Point) -> None:  # noqa: N802
        """Draw a quadratic curve as the cubic one that equals it: its inner points lie at two thirds of the way."""
        middle, end = map(self._at, points)
        inner = [
            tuple(a + (b - a) * 2.0 / 3.0 for a, b in zip(outer, middle, strict=True)) for outer in (self.last, end)
        ]
        self.path.curveTo(*inner[0], *inner[1], *end)
        self.last = end

    def closePath(self) -> None:  # noqa: N802
        """Close a contour."""
        self.path.close()

    def endPath(self) -> None:  # noqa: N802
        """End an open contour; an outline has none."""
