"""Blocks as flowables of the PDF library: type, tables that break over pages, boxes to tick, drawings in mm."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.lib.colors import black
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, Spacer, Table, TableStyle

from planner.output.paper_files.lettering import SetText, lettered
from planner.output.paper_files.line_breaks import with_fixed_spaces
from planner.output.paper_files.page_size import PageSize
from planner.output.paper_files.pdf_drawing import ENGLISH_WAY, Box, Drawn
from planner.output.paper_files.pdf_squeeze import squeezed, tallness
from planner.output.paper_files.pdf_table import Command, Way, table
from planner.output.paper_files.sheet import (
    BOX,
    Beside,
    Block,
    Facts,
    Heading,
    Lines,
    Picture,
    Rows,
    Stamp,
    Ticks,
    Words,
)
from planner.output.paper_files.type_face import BOLD, REGULAR, letters

GREY = 0.35
PLAIN = ParagraphStyle("plain", fontName=REGULAR, fontSize=9.5, leading=12.6, spaceAfter=2.5)
STYLES = {
    "plain": PLAIN,
    "small": ParagraphStyle("small", parent=PLAIN, fontSize=8.2, leading=10.6),
    "strong": ParagraphStyle("strong", parent=PLAIN, fontName=BOLD, fontSize=11, leading=14),
    "warning": ParagraphStyle("warning", parent=PLAIN, fontName=BOLD, fontSize=9.8, leading=12.8, spaceAfter=0),
    "head": ParagraphStyle("head", parent=PLAIN, fontName=BOLD, fontSize=12, leading=15, spaceBefore=7, spaceAfter=2),
    "cell": ParagraphStyle("cell", parent=PLAIN, fontSize=8.8, leading=11.2, spaceAfter=0),
    "label": ParagraphStyle("label", parent=PLAIN, fontName=BOLD, fontSize=8.8, leading=11.2, spaceAfter=0),
    "stamp": ParagraphStyle("stamp", parent=PLAIN, fontName=BOLD, fontSize=25, leading=30, alignment=1, spaceAfter=0),
    "below": ParagraphStyle("below", parent=PLAIN, fontSize=10, leading=13, alignment=1, spaceAfter=0),
    "number head": ParagraphStyle(
        "number head", parent=PLAIN, fontName=BOLD, fontSize=8.8, leading=11.2, alignment=2, spaceAfter=0
    ),
    "number": ParagraphStyle("number", parent=PLAIN, fontSize=8.8, leading=11.2, alignment=2, spaceAfter=0),
}
HAIR = 0.35
CELL_HIGH = 11.2 + 2.7
"""Points that one line of a cell takes, with the room below it."""
HAND_MM = 7.0
"""Height of a row to write in; ruled paper has 7 to 8 mm (common practice, no source)."""
DRAWN_MM = 52.0
"""Width of the column of drawings in a table."""
KEPT_SHARE = 0.6
"""What takes no more of a page than this is not torn apart."""
SLACK_MM = 3.0
"""So much more, below a heading, as room between blocks counts only where blocks stand above them."""
LEAST_MM = 22.0
"""A longer one starts where at least so much of it has room."""


def flowables(blocks: Sequence[Block], size: PageSize, way: Way = ENGLISH_WAY) -> list[Flowable]:
    """Return the blocks of one card, top to bottom; a heading never stands alone at a page's foot."""
    letters()
    wide, high = (value * mm for value in size.inner_mm)

    def laid_out(width: float) -> list[Flowable]:
        """Return the blocks for a width."""
        found: list[Flowable] = []
        for index, block in enumerate(blocks):
            if isinstance(block, Heading | Lines):
                found.append(CondPageBreak(_together(blocks[index:], width, high, way)))
            found += _block(block, width, way)
        while found and isinstance(found[-1], Spacer):
            found.pop()  # what has no room below the last block would make a page of its own
        return found

    if any(isinstance(block, Picture) and block.drawing.true_size for block in blocks):
        return laid_out(wide)  # what is bound to its size is never drawn smaller
    return squeezed(laid_out, wide, high)


def _together(blocks: Sequence[Block], wide: float, high: float, way: Way) -> float:
    """Return the height that must be free for the first block: all that belongs to it, where a page can hold that.

    A heading belongs to what it stands over up to the next one, the lines to sign to what they stand below.
    """
    until = next((i for i, one in enumerate(blocks[1:], 1) if isinstance(one, Heading)), len(blocks))
    for group in (blocks[:until], blocks[:2]):
        found = [one for block in group for one in _block(block, wide, way)]
        tall = tallness(found[:-1] if isinstance(found[-1], Spacer) else found, wide, high)
        if tall <= KEPT_SHARE * high:
            return tall + (SLACK_MM * float(mm) if isinstance(blocks[0], Heading) else 0.0)
    return LEAST_MM * float(mm)


def _block(block: Block, wide: float, way: Way) -> list[Flowable]:
    """Return one block."""
    if isinstance(block, Heading):
        return [_words(block.text, "head", way)]
    if isinstance(block, Words):
        words = _words(block.text, block.tone, way)
        return [_framed([words], wide), Spacer(0, 5)] if block.tone == "warning" else [words]
    if isinstance(block, Stamp):
        inside = [_words(block.text, "stamp", way), *([_words(block.below, "below", way)] if block.below else [])]
        return [Spacer(0, 4), _framed(inside, wide, line=2.6), Spacer(0, 7)]
    if isinstance(block, Facts):
        return [_facts(block, wide, way), Spacer(0, 4)]
    if isinstance(block, Rows):
        return [_rows(block, wide, way), Spacer(0, 4)]
    if isinstance(block, Ticks):
        return [_ticks(block, wide, way), Spacer(0, 4)]
    if isinstance(block, Picture):
        return [Drawn(block.drawing, block.share * wide, way), Spacer(0, 4)]
    if isinstance(block, Beside):
        return [_beside(block, wide, way), Spacer(0, 4)]
    return _lines(block, wide, way)


def _beside(block: Beside, wide: float, way: Way) -> Table:
    """Return two columns, top to top."""
    gutter = 5 * mm
    widths = (block.share * wide, (1 - block.share) * wide)
    inside = [
        [flowable for one in blocks for flowable in _block(one, width, way)]
        for blocks, width in ((block.left, widths[0] - gutter), (block.right, widths[1]))
    ]
    look = [("VALIGN", (0, 0), (-1, -1), "TOP"), ("LEFTPADDING", (0, 0), (-1, -1), 0)]
    look += [("RIGHTPADDING", (0, 0), (-1, -1), 0), ("TOPPADDING", (0, 0), (-1, -1), 0)]
    return table([inside], widths, [*look, ("BOTTOMPADDING", (0, 0), (-1, -1), 0)], way)


def _words(text: str, style: str, way: Way) -> Flowable:
    """Return a paragraph; nothing in the text is taken for markup."""
    if way.translated:
        return SetText(with_fixed_spaces(text), STYLES[style], leftward=way.leftward, tall=way.tall)
    return lettered(with_fixed_spaces(text), STYLES[style])


def _cell(text: str, way: Way, style: str = "cell") -> Flowable:
    """Return a cell: a box to tick, or words."""
    return Box(3.4) if text == BOX else _words(text, style, way)


def _framed(inside: list[Flowable], wide: float, *, line: float = 1.1) -> Table:
    """Return flowables in a frame."""
    look = [("BOX", (0, 0), (-1, -1), line, black), ("TOPPADDING", (0, 0), (-1, -1), 4)]
    look += [("BOTTOMPADDING", (0, 0), (-1, -1), 6), ("LEFTPADDING", (0, 0), (-1, -1), 8)]
    return Table([[inside]], colWidths=[wide], style=TableStyle(look))


def _look(*more: tuple[object, ...], ruled: bool = True) -> list[Command]:
    """Return the look of every table: hair lines below rows where it is ruled, no room lost at the left."""
    return [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        *([("LINEBELOW", (0, 0), (-1, -1), HAIR, (GREY, GREY, GREY))] if ruled else []),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 6),
        ("TOPPADDING", (0, 0), (-1, -1), 1.9),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.7),
        *more,
    ]


def _facts(block: Facts, wide: float, way: Way) -> Table:
    """Return names, values and reasons."""
    rows = [[_cell(name, way, "label"), _cell(value, way), _cell(why, way, "small")] for name, value, why in block.rows]
    alone = [("SPAN", (1, index), (2, index)) for index, (_, _, why) in enumerate(block.rows) if not why]
    return table(rows, [0.2 * wide, 0.32 * wide, 0.48 * wide], _look(*alone), way)


def _rows(block: Rows, wide: float, way: Way) -> Table:
    """Return a table whose head stands again on every page."""
    total = sum(block.shares)
    head = [_cell(text, way, "label") for text in block.head]
    body = [
        [_cell(text, way, "number" if index in block.right else "cell") for index, text in enumerate(row)]
        for row in block.rows
    ]
    for index in block.right:
        head[index] = _words(block.head[index], "number head", way)
    apart = [("RIGHTPADDING", (index, 0), (index, -1), 12) for index in block.right]
    if block.written:
        apart.append(("TOPPADDING", (0, 1), (-1, -1), HAND_MM * mm - CELL_HIGH))
    look = _look(("LINEBELOW", (0, 0), (-1, 0), 1.0, black), *apart)
    widths = [(wide - (DRAWN_MM * mm if block.drawings else 0.0)) * s / total for s in block.shares]
    if block.drawings:
        widths.insert(1, DRAWN_MM * mm)
        head.insert(1, _cell("", way, "label"))
        for row, drawing in zip(body, block.drawings, strict=True):
            row.insert(1, _cell("", way) if drawing is None else Drawn(drawing, (DRAWN_MM - 3.0) * mm))
    return table([head, *body], widths, look, way, heads_n=1)


def _ticks(block: Ticks, wide: float, way: Way) -> Table:
    """Return steps with boxes."""
    rows = [
        [Box(3.4), _words(f"{index}. {step}" if block.ordered else step, "plain", way)]
        for index, step in enumerate(block.steps, 1)
    ]
    return table(rows, [6.5 * mm, wide - 6.5 * mm], _look(ruled=False), way)


def _lines(block: Lines, wide: float, way: Way) -> list[Flowable]:
    """Return lines to write on, two in a row."""
    labels = list(block.labels) + [""] * (len(block.labels) % 2)
    rows = [
        [_cell(a, way, "small"), "", "", _cell(b, way, "small"), ""]
        for a, b in zip(labels[::2], labels[1::2], strict=True)
    ]
    look = [
        ("VALIGN", (0, 0), (-1, -1), "BOTTOM"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 9),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1),
        *(("LINEBELOW", (1, row), (1, row), 0.6, black) for row in range(len(rows))),
        *(("LINEBELOW", (4, row), (4, row), 0.6, black) for row in range(len(rows)) if labels[2 * row + 1]),
    ]
    widths = [share * wide for share in (0.17, 0.305, 0.03, 0.17, 0.325)]
    return [table(rows, widths, look, way), Spacer(0, 4)]
