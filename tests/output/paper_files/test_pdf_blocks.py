"""Blocks as flowables: headings stay with what follows, tables repeat their head, and text is only ever text."""

from __future__ import annotations

from reportlab.platypus import CondPageBreak, Paragraph, Spacer, Table

from planner.output import SIZES
from planner.output.paper_files.pdf_blocks import flowables
from planner.output.paper_files.pdf_drawing import Box
from planner.output.paper_files.sheet import BOX, Block, Facts, Heading, Lines, Rows, Stamp, Ticks, Words

A4 = SIZES["a4"]
EVERY: tuple[Block, ...] = (
    Heading(text="Before you start"),
    Words(text="Plain words."),
    Stamp(text="NOT RELEASED", below="not yet"),
    Facts(rows=(("size", "100 %", "as drawn"),)),
    Rows(head=("part", "n"), rows=(("deck", "1"), ("jaw", BOX)), shares=(0.7, 0.3), right=(1,)),
    Ticks(steps=("drill", "ream"), ordered=True),
    Lines(labels=("role", "date", "reading")),
)


def test_a_heading_asks_for_room_for_all_that_it_stands_over() -> None:
    """The room is asked for before the heading, and is more than the heading itself takes."""
    found = flowables((Heading(text="Steps"), Ticks(steps=("drill", "ream"))), A4)
    at = next(k for k, one in enumerate(found) if isinstance(one, Paragraph))
    before = found[at - 1]

    assert isinstance(before, CondPageBreak)
    assert before.height > found[at].wrap(400, 800)[1] + found[at + 1].wrap(400, 800)[1]


def test_nothing_follows_the_last_block() -> None:
    """A spacer with no room left would make a page of its own; so none stands at the end, whatever the block."""
    for block in EVERY:
        assert not isinstance(flowables((block,), A4)[-1], Spacer), block


def test_a_tables_head_stands_again_on_every_page_and_its_boxes_are_drawn() -> None:
    """One row of head repeats; the cell that holds only a box is one."""
    (table,) = (one for one in flowables((EVERY[4],), A4) if isinstance(one, Table))

    assert table.repeatRows == 1
    assert len(table._cellvalues) == 3
    assert isinstance(table._cellvalues[2][1][0], Box)


def test_text_is_never_taken_for_markup() -> None:
    """A part named like a tag is printed as it is written."""
    (words,) = flowables((Words(text="<b>deck</b> & jaw"),), A4)

    assert words.getPlainText() == "<b>deck</b> & jaw"
