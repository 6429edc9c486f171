"""The card for photos as one page of PDF: its marks and its ruler true to the millimetre, and how to use it."""

from __future__ import annotations

import io

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from planner.output.paper_files.page_size import PageSize
from planner.output.paper_files.type_face import BOLD, REGULAR, letters
from planner.photo import CELLS_N, HIGH_MM, MARK_MM, RULER_AT_MM, RULER_MM, WIDE_MM, Mark, black_cells, marks

ABOVE = ("Card for photos", "Print at 100 %, without fitting it to the page.")
BELOW = (
    "Measure the ruler: say --ruler if it is not 100 mm.",
    "Glue the card to something flat and stiff.",
    "Lay it beside the limb, at the height of the limb's middle.",
    "Stand a metre off, above both; the whole card in the photo,",
    "sharp, in even light. Nobody's face belongs in it.",
    "This measures shape only; it does not judge a body.",
)
HEAD_PT, TEXT_PT, LINE_MM = 13.0, 9.5, 5.0


def card_pdf(size: PageSize) -> bytes:
    """Return the card on a page; the same size always gives the same bytes."""
    letters()
    file = io.BytesIO()
    canvas = Canvas(file, pagesize=(size.width_mm * mm, size.height_mm * mm), invariant=True)
    canvas.setTitle(ABOVE[0])
    left, top = (size.width_mm - WIDE_MM) / 2, (size.height_mm + HIGH_MM) / 2

    def at(x_mm: float, y_mm: float) -> tuple[float, float]:
        """Return a place of the card on the page, which counts upward."""
        return (left + x_mm) * mm, (top - y_mm) * mm

    for mark in marks():
        _mark(canvas, mark, *at(mark.x_mm, mark.y_mm + MARK_MM))
    for n, text in enumerate(ABOVE):
        canvas.setFont(REGULAR if n else BOLD, TEXT_PT if n else HEAD_PT)
        canvas.drawString(*at(RULER_AT_MM[0], 50.0 + 7.0 * n), text)
    for n, text in enumerate(BELOW):
        canvas.setFont(REGULAR, TEXT_PT)
        canvas.drawString(*at(RULER_AT_MM[0], 75.0 + LINE_MM * n), text)
    _ruler(canvas, *at(*RULER_AT_MM))
    canvas.showPage()
    canvas.save()
    return file.getvalue()


def _mark(canvas: Canvas, mark: Mark, x_pt: float, y_pt: float) -> None:
    """Draw a mark with its lower left corner at a place: a black square, and white cells over it."""
    cell_pt = MARK_MM / CELLS_N * mm
    canvas.setFillGray(0.0)
    canvas.rect(x_pt, y_pt, MARK_MM * mm, MARK_MM * mm, stroke=0, fill=1)
    canvas.setFillGray(1.0)
    for row, cells in enumerate(black_cells(mark.number)):
        for column, black in enumerate(cells):
            if not black:
                corner = x_pt + column * cell_pt, y_pt + (CELLS_N - 1 - row) * cell_pt
                canvas.rect(*corner, cell_pt, cell_pt, stroke=0, fill=1)
    canvas.setFillGray(0.0)


def _ruler(canvas: Canvas, x_pt: float, y_pt: float) -> None:
    """Draw a ruler of 100 mm from a place to the right."""
    canvas.setLineWidth(0.2 * mm)
    canvas.line(x_pt, y_pt, x_pt + RULER_MM * mm, y_pt)
    canvas.setFont(REGULAR, 7.0)
    for n in range(round(RULER_MM) + 1):
        high_mm = 5.0 if n % 10 == 0 else 3.5 if n % 5 == 0 else 2.0
        canvas.line(x_pt + n * mm, y_pt, x_pt + n * mm, y_pt + high_mm * mm)
        if n % 10 == 0:
            canvas.drawCentredString(x_pt + n * mm, y_pt - 3.5 * mm, f"{n}" if n < RULER_MM else f"{n} mm")
