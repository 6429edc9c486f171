"""Texts of blocks: every text is found, and every text can be changed."""

from __future__ import annotations

from planner.output.drawing.shapes import Drawing, Label
from planner.output.paper_files.sheet import Beside, Block, Facts, Heading, Lines, Picture, Rows, Stamp, Ticks, Words
from planner.output.words.block_texts import texts_of, with_texts

DRAWING = Drawing(width_mm=10, height_mm=10, about="x", shapes=(), labels=(Label(at=(1, 1), text="o"),))
BLOCKS: tuple[Block, ...] = (
    Heading(text="a"),
    Words(text="b"),
    Stamp(text="c", below="d"),
    Facts(rows=(("e", "f", "g"),)),
    Rows(head=("h",), rows=(("i",),), shares=(1.0,)),
    Ticks(steps=("j",)),
    Lines(labels=("k",)),
    Beside(left=(Words(text="l"),), right=(Heading(text="m"),)),
    Picture(drawing=DRAWING),
)


def test_every_text_of_every_kind_of_block_is_found() -> None:
    """Each block's letters come out in order, those of drawings and of two columns too."""
    assert "".join(texts_of(BLOCKS)) == "abcdefghijklmo"


def test_a_change_reaches_every_text() -> None:
    """All letters become capitals, and nothing else changes."""
    changed = with_texts(BLOCKS, str.upper)

    assert "".join(texts_of(changed)) == "ABCDEFGHIJKLMO"
    assert [type(block) for block in changed] == [type(block) for block in BLOCKS]
