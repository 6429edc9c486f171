"""All papers as one PDF: ReportLab lays the blocks out; every length is a millimetre times 72 / 25.4."""

from __future__ import annotations

import io
from collections.abc import Sequence
from functools import partial

import reportlab
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, NextPageTemplate, PageBreak, PageTemplate
from reportlab.platypus.doctemplate import LayoutError

from planner.cache import kept, key_of
from planner.output.paper_files.lettering import DrawnRun, installed, placed_line, rows_of, write, write_set
from planner.output.paper_files.missing_glyphs import in_words
from planner.output.paper_files.page_size import PageSize
from planner.output.paper_files.pdf_blocks import flowables
from planner.output.paper_files.pdf_table import Way
from planner.output.paper_files.sheet import Card, Head, Sheet
from planner.output.paper_files.type_face import BOLD, REGULAR
from planner.output.words.shortened import short, shortened

LONGEST_N = (900, 400, 90, 30)
"""Letters of one text; the next is tried where a page cannot hold it."""
LETTER_MM = 15.0
"""Height of the frame of the big L or R."""
LEAST_PT = 6.5
"""A line of a translated head or foot is never set smaller."""
TALL = ("ar", "hi")
"""Languages whose lines need more room than those of Latin letters."""
PAGED_MM = 24.0
"""Room for a page's number beside who made the paper."""
PDF_VERSION = 7
"""Raised whenever the same papers make another PDF."""


class _Numbered(Canvas):  # type: ignore[misc]  # the library ships no types
    """A canvas that knows at the end how many pages there are, and draws shaped runs where pictures stand in a line."""

    def __init__(self, *words: object, **named: object) -> None:
        super().__init__(*words, **named)
        self.pages: list[dict[str, object]] = []
        self.head: Head | None = None
        """Of the page that is drawn: in whose language its number stands."""

    def drawImage(self, image: object, x: float, y: float, *more: object, **named: object) -> object:  # noqa: N802  the library's
        """Draw a picture, or a shaped run with its baseline at y."""
        if isinstance(image, DrawnRun):
            image.draw(self, x, y)
            return None
        return super().drawImage(image, x, y, *more, **named)

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
            head = page["head"]
            assert isinstance(head, Head)
            text = head.paged.format(number=number, count=len(self.pages))
            if head.language != "en":
                at = 13.0 * mm if head.leftward else size[0] - 13.0 * mm
                wide = placed_line(text, REGULAR, 7.5, leftward=head.leftward).wide_pt
                left = at + wide if head.leftward else at - wide
                write_set(self, (left, 11.0 * mm), text, REGULAR, 7.5, leftward=head.leftward)
            else:
                self.drawRightString(size[0] - 13.0 * mm, 11.0 * mm, text)
            super().showPage()
        super().save()


def pdf(sheets: Sequence[Sheet], head: Head, size: PageSize) -> bytes:
    """Return all papers as the bytes of one PDF; the same papers always give the same bytes.

    Texts longer than any page could hold are cut with an ellipsis, and names in letters that the face lacks stand as
    "(name 1)" with a line that says where to read them; the HTML papers have both in full. Papers that were laid out
    before are not laid out again.
    """
    # by their names and fields: blocks of two kinds may hold the same words
    facts = (PDF_VERSION, reportlab.__version__, installed(), repr(tuple(sheets)), repr(head), repr(size))
    return kept("papers", key_of(*facts), bytes, lambda: _pressed(sheets, head, size))


def _pressed(sheets: Sequence[Sheet], head: Head, size: PageSize) -> bytes:
    """Lay the papers out, and return the PDF."""
    sheets, head = in_words(sheets, head)
    for longest_n in LONGEST_N[:-1]:
        try:
            return _built(sheets, head, size, longest_n)
        except LayoutError:  # one row or column is higher than the page
            continue
    return _built(sheets, head, size, LONGEST_N[-1])


def _built(sheets: Sequence[Sheet], head: Head, size: PageSize, longest_n: int) -> bytes:
    """Return the PDF with no text longer than a limit."""
    file = io.BytesIO()
    document = BaseDocTemplate(
        file,
        pagesize=(size.width_mm * mm, size.height_mm * mm),
        title=short(f"Bench papers: {head.job}", 200),
        author=head.maker,
        invariant=1,
        lang="en",
    )
    story: list[Flowable] = []
    cards = [(sheet, card) for sheet in sheets for card in sheet.cards]
    for index, (sheet, card) in enumerate(cards):
        name = f"card {index}"
        document.addPageTemplates(
            PageTemplate(
                id=name, frames=[_frame(size)], onPage=partial(_dress, head=sheet.head or head, size=size, card=card)
            )
        )
        if index:
            story += [NextPageTemplate(name), PageBreak()]
        blocks = shortened(card.blocks, longest_n)
        story += [
            _Mark(sheet, f"card-{index}", first=card is sheet.cards[0]),
            *flowables(blocks, size, _way(sheet.head or head)),
        ]
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

    def __init__(self, sheet: Sheet, key: str, *, first: bool) -> None:
        super().__init__()
        self.sheet, self.key, self.first = sheet, key, first

    def wrap(self, wide: float, high: float) -> tuple[float, float]:  # noqa: ARG002  the library's own signature
        """Return no size."""
        return 0.0, 0.0

    def draw(self) -> None:
        """Write the entry."""
        self.canv.bookmarkPage(self.key)
        if self.first:
            self.canv.addOutlineEntry(self.sheet.title, self.key, 0)


def _way(head: Head) -> Way:
    """Return how the words below a head are set."""
    return Way(translated=head.language != "en", leftward=head.leftward, tall=head.language in TALL)


def _dress(canvas: _Numbered, document: BaseDocTemplate, *, head: Head, size: PageSize, card: Card) -> None:  # noqa: ARG001
    """Draw head and foot of one page: title, whose and what size, the big letter, who made it."""
    canvas.head = head
    left, right = size.margin_mm * mm, (size.width_mm - size.margin_mm) * mm
    top = (size.height_mm - size.margin_mm) * mm
    box = LETTER_MM * mm
    beside = right - left - (box + 3.0 * mm if head.letter else 0.0)
    _line(canvas, head, size, top - 6.5 * mm, (short(card.title, 44), BOLD, 17), beside)
    _line(canvas, head, size, top - 12.5 * mm, (_whose(head), REGULAR, 9), beside)
    if head.letter:
        at = left if head.leftward else right - box
        canvas.setLineWidth(1.6)
        canvas.rect(at, top - box - 0.5 * mm, box, box)
        canvas.setFont(BOLD, 36)
        canvas.drawCentredString(at + box / 2, top - box + 1.9 * mm, head.letter)
    if head.bar:
        _line(canvas, head, size, top - 16.7 * mm, (head.bar, BOLD, 10.5), right - left)
    line = top - 17.5 * mm
    canvas.setLineWidth(1.1)
    canvas.line(left, line, right, line)
    _line(canvas, head, size, 11.0 * mm, (head.maker, REGULAR, 7.5), right - left - PAGED_MM * mm)


def _line(canvas: Canvas, head: Head, size: PageSize, y: float, said: tuple[str, str, float], room_pt: float) -> None:
    """Write one line of the head or foot; a translated one in smaller type, and then in two lines, where it is long."""
    text, font, size_pt = said
    left, right = size.margin_mm * mm, (size.width_mm - size.margin_mm) * mm
    if head.language == "en":
        write(canvas, (left, y), text, font, size_pt)
        return
    least_pt = min(size_pt, LEAST_PT)
    while size_pt > least_pt and placed_line(text, font, size_pt, leftward=head.leftward).wide_pt > room_pt:
        size_pt = max(least_pt, size_pt - 0.25)
    rows = rows_of(text, font, size_pt, room_pt, leftward=head.leftward)
    for index, row in enumerate(reversed(rows)):
        at = (right if head.leftward else left, y + 1.2 * size_pt * index)
        write_set(canvas, at, row, font, size_pt, leftward=head.leftward)


def _whose(head: Head) -> str:
    """Return the line under the title."""
    return " · ".join(part for part in (short(head.job, 60), head.recipient, head.size, head.side) if part)
