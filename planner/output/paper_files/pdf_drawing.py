"""Drawings and boxes on the PDF's canvas."""

from __future__ import annotations

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from planner.output.drawing.shapes import Drawing, Label, Shape
from planner.output.paper_files.lettering import write, write_set
from planner.output.paper_files.pdf_table import Way
from planner.output.paper_files.type_face import REGULAR

ENGLISH_WAY = Way()


class Box(Flowable):  # type: ignore[misc]  # the library ships no types
    """A box to tick, ``side_mm`` high."""

    def __init__(self, side_mm: float) -> None:
        super().__init__()
        self.side = side_mm * mm

    def wrap(self, wide: float, high: float) -> tuple[float, float]:  # noqa: ARG002  the library's own signature
        """Return the room it takes."""
        return self.side, self.side + 1.2

    def draw(self) -> None:
        """Draw it."""
        self.canv.setLineWidth(0.8)
        self.canv.rect(0, 0, self.side, self.side)


class Drawn(Flowable):  # type: ignore[misc]  # the library ships no types
    """A drawing, in the middle of the paper: at true size, or at most as wide as is asked for."""

    def __init__(self, drawing: Drawing, width: float, way: Way = ENGLISH_WAY) -> None:
        super().__init__()
        self.drawing, self.way = drawing, way
        self.factor = 1.0 if drawing.true_size else width / (drawing.width_mm * mm)
        self.left = 0.0

    def wrap(self, wide: float, high: float) -> tuple[float, float]:
        """Return the room it takes; a drawing that is not bound to its size shrinks to the room there is."""
        tall = self.drawing.height_mm * mm * self.factor
        if not self.drawing.true_size and tall > high > 60 * mm:
            self.factor *= high / tall
        width = self.drawing.width_mm * mm * self.factor
        self.left = 0.0 if self.drawing.true_size else max(0.0, (wide - width) / 2)
        return wide, self.drawing.height_mm * mm * self.factor

    def draw(self) -> None:
        """Draw shapes, then labels."""
        canvas, k = self.canv, mm * self.factor
        canvas.saveState()
        canvas.translate(self.left, 0)
        for shape in self.drawing.shapes:
            self._shape(shape, k)
        canvas.setFillGray(0.0)
        for label in self.drawing.labels:
            self._label(label, k)
        canvas.restoreState()

    def _shape(self, shape: Shape, k: float) -> None:
        """Draw one shape."""
        canvas = self.canv
        path = canvas.beginPath()
        for ring in shape.rings:
            path.moveTo(ring[0][0] * k, ring[0][1] * k)
            for x, y in ring[1:]:
                path.lineTo(x * k, y * k)
            if shape.closed:
                path.close()
        canvas.setLineWidth(max(shape.stroke_mm * mm, 0.1))
        canvas.setStrokeGray(shape.ink_share)
        canvas.setDash(*([2.0 * mm, 1.5 * mm], 0) if shape.dashed else ([], 0))
        if shape.fill is not None:
            canvas.setFillGray(shape.fill)
        canvas.drawPath(path, stroke=int(shape.stroke_mm > 0), fill=int(shape.fill is not None), fillMode=0)

    def _label(self, label: Label, k: float) -> None:
        """Write one label."""
        at = label.at[0] * k, label.at[1] * k
        size_pt, middle = label.size_mm * k, label.anchor == "middle"
        if self.way.translated:
            write_set(
                self.canv, at, label.text, REGULAR, size_pt, leftward=self.way.leftward, middle=middle, after=True
            )
        else:
            write(self.canv, at, label.text, REGULAR, size_pt, middle=middle)
