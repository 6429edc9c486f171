"""All papers as one PDF: ReportLab lays the blocks out; every length is a millimetre times 72 / 25.4."""

from __future__ import annotations

import io
from collections.abc import Sequence
from functools import partial

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, NextPageTemplate, PageBreak, PageTemplate

from planner.papers.face import BOLD, REGULAR, shown
from planner.papers.page_size import PageSize
from planner.papers.pdf_blocks import flowables
from planner.papers.sheet import Card, Head, Sheet

LETTER_MM = 15.0
"""Height of the frame of the big L or R."""


class _Numbered(Canvas):  # type: ignore[misc]  # the library ships no types
    """A canvas that knows at the end how many pages there are."""

    def __init__(self, *words: object, **named: object) -> None:
        super().__init__(*words, **named)
        self.pages: list[dict[str, object]] = []

    def showPage(self) -> None:  # noqa: N802  the library's own name
        """Keep a page until all are there."""
        self.pages.append(dict(self.__dict__))
        self._startPage()

    def save(self) -> None:
        """Write the number on every page, then the file."""
        for number, page in enumerate(self.pages, 1):
            self.__dict__.update(page)
            size = page["_pagesize"]
            assert isinstance(size, tuple)
            self.setFont(REGULAR, 7.5)
            self.drawRightString(size[0] - 13.0 * mm, 11.0 * mm, f"{number} of {len(self.pages)}")
            super().showPage()
        super().save()


def pdf(sheets: Sequence[Sheet], head: Head, size: PageSize) -> bytes:
    """Return all papers as the bytes of one PDF; the same papers always give the same bytes."""
    file = io.BytesIO()
    document = BaseDocTemplate(
        file,
        pagesize=(size.width_mm * mm, size.height_mm * mm),
        title=shown(f"Bench papers: {head.job}"),
        author=shown(head.maker),
        invariant=1,
        lang="en",
    )
    story: list[Flowable] = []
    cards = [(sheet, card) for sheet in sheets for card in sheet.cards]
    for index, (sheet, card) in enumerate(cards):
        name = f"card {index}"
        document.addPageTemplates(
            PageTemplate(id=name, frames=[_frame(size)], onPage=partial(_dress, head=head, size=size, card=card))
        )
        if index:
            story += [NextPageTemplate(name), PageBreak()]
        story += [_Mark(sheet, card, first=card is sheet.cards[0]), *flowables(card.blocks, size)]
    document.build(story, canvasmaker=_Numbered)
    return file.getvalue()


def _frame(size: PageSize) -> Frame:
    """Return the room between head and foot."""
    width, height = size.inner_mm
    return Frame(
        size.margin_mm * mm,
        (size.margin_mm + size.foot_mm) * mm,
        width * mm,
        height * mm,
        leftPadding=0,
        rightPadding=0,
        topPadding=0,
        bottomPadding=0,
    )


class _Mark(Flowable):  # type: ignore[misc]  # the library ships no types
    """An entry of the file's outline at a card's head; it takes no room."""

    def __init__(self, sheet: Sheet, card: Card, *, first: bool) -> None:
        super().__init__()
        self.sheet, self.card, self.first = sheet, card, first

    def wrap(self, wide: float, high: float) -> tuple[float, float]:  # noqa: ARG002  the library's own signature
        """Return no size."""
        return 0.0, 0.0

    def draw(self) -> None:
        """Write the entry."""
        key = f"{self.sheet.name}-{self.card.title}"
        self.canv.bookmarkPage(key)
        if self.first:
            self.canv.addOutlineEntry(self.sheet.title, key, 0)


def _dress(canvas: Canvas, document: BaseDocTemplate, *, head: Head, size: PageSize, card: Card) -> None:  # noqa: ARG001
    """Draw head and foot of one page: title, whose and what size, the big letter, who made it."""
    left, right = size.margin_mm * mm, (size.width_mm - size.margin_mm) * mm
    top = (size.height_mm - size.margin_mm) * mm
    canvas.setFont(BOLD, 17)
    canvas.drawString(left, top - 6.5 * mm, shown(card.title))
    canvas.setFont(REGULAR, 9)
    canvas.drawString(left, top - 12.5 * mm, shown(_whose(head)))
    if head.letter:
        box = LETTER_MM * mm
        canvas.setLineWidth(1.6)
        canvas.rect(right - box, top - box - 0.5 * mm, box, box)
        canvas.setFont(BOLD, 36)
        canvas.drawCentredString(right - box / 2, top - box + 1.9 * mm, head.letter)
    line = top - 17.5 * mm
    canvas.setLineWidth(1.1)
    canvas.line(left, line, right, line)
    canvas.setFont(REGULAR, 7.5)
    canvas.drawString(left, 11.0 * mm, shown(head.maker))


def _whose(head: Head) -> str:
    """Return the line under the title."""
    job = head.job if len(head.job) <= 60 else head.job[:59] + "…"
    return " · ".join(part for part in (job, head.recipient, head.size, head.side) if part)
