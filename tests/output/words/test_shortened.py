"""Long texts are cut with an ellipsis, on drawings sooner than in words."""

from __future__ import annotations

from planner.output.drawing.shapes import Drawing, Label
from planner.output.paper_files.sheet import Picture, Words
from planner.output.words.block_texts import texts_of
from planner.output.words.shortened import ON_DRAWING_N, short, shortened


def test_a_text_at_its_limit_stays_whole() -> None:
    """Six letters fit six; seven end in an ellipsis at six."""
    assert (short("sixsix", 6), short("seven77", 6)) == ("sixsix", "seven…")


def test_blocks_are_cut_to_their_limits() -> None:
    """Words to the limit given, labels to the one line that a drawing has."""
    drawing = Drawing(width_mm=10, height_mm=10, about="", shapes=(), labels=(Label(at=(0, 0), text="x" * 900),))
    words, label = texts_of(shortened((Words(text="y" * 900), Picture(drawing=drawing)), 200))

    assert (len(words), len(label)) == (200, ON_DRAWING_N)
