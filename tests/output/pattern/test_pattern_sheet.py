"""Patterns on paper are true to size, with a ruler to check it by, in tiles where they are larger."""

from __future__ import annotations

import io

import pdfplumber
import pytest

from planner.output.paper_files.page_size import SIZES
from planner.output.paper_files.paper_pdf import pdf
from planner.output.paper_files.sheet import Picture
from planner.output.pattern.pattern_sheet import RULER_MM, pattern_head, pattern_sheet
from tests.output.pattern.worked import patterns

MM = 72 / 25.4


def test_outline_and_ruler_are_true_to_two_tenths() -> None:
    """Another library measures on page 1: π 29.5 by 100 mm (circumference), a ruler of 100 mm."""
    found = patterns()
    with pdfplumber.open(
        io.BytesIO(pdf([pattern_sheet(found, SIZES["a4"])], pattern_head(found), SIZES["a4"]))
    ) as file:
        page = file.pages[0]
        drawn = [(one["width"] / MM, one["height"] / MM) for one in (*page.curves, *page.rects, *page.lines)]
        words = page.extract_text()

    assert any(sorted(size) == pytest.approx([92.677, 100.0], abs=0.2) for size in drawn)
    assert any(size == pytest.approx((RULER_MM, 0.0), abs=0.2) for size in drawn)
    assert "HOLD: do not cut" in words  # the plate without a side


def test_each_pattern_has_its_cards() -> None:
    """Three at true size, one that says why there is none, one about bucks and heat."""
    cards = pattern_sheet(patterns(), SIZES["a4"]).cards
    pictures = [block for card in cards for block in card.blocks if isinstance(block, Picture)]

    assert len(pictures) == 3
    assert all(picture.drawing.true_size for picture in pictures)
    assert [card.title for card in cards] == [*["Padding of cuff"] * 4, "Forming bucks"]
