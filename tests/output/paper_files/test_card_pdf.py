"""The card's page: marks and ruler are true to the millimetre, by another library."""

from __future__ import annotations

import io

import pdfplumber
import pytest

from planner.output import SIZES, card_pdf
from planner.photo import HIGH_MM, MARK_MM, RULER_MM, WIDE_MM


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_marks_and_ruler_are_true_and_inside_the_page(paper: str) -> None:
    """One page; the marks span the card to 0.2 mm, the ruler is 100 mm, 12 mm are free all round."""
    size = SIZES[paper]  # type: ignore[index]
    with pdfplumber.open(io.BytesIO(card_pdf(size))) as read:
        assert len(read.pages) == 1
        page = read.pages[0]
        per_mm = 72 / 25.4
        black = [r for r in page.rects if round(r["width"] / per_mm, 1) == MARK_MM]
        left, right = min(r["x0"] for r in black) / per_mm, max(r["x1"] for r in black) / per_mm
        top, bottom = min(r["top"] for r in black) / per_mm, max(r["bottom"] for r in black) / per_mm
        ruler = max(line["width"] for line in page.lines) / per_mm

        assert len(black) == 8
        assert right - left == pytest.approx(WIDE_MM, abs=0.2)
        assert bottom - top == pytest.approx(HIGH_MM, abs=0.2)
        assert ruler == pytest.approx(RULER_MM, abs=0.2)
        assert min(left, top, size.width_mm - right, size.height_mm - bottom) > 12.0
        assert "Print at 100 %" in page.extract_text()
