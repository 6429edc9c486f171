"""Paragraphs of translated papers: broken to their width, English below in small type."""

from __future__ import annotations

import pytest

from planner.output.paper_files.lettering import SetText, placed_line, rows_of
from planner.output.paper_files.pdf_blocks import PLAIN
from planner.output.paper_files.type_face import REGULAR, letters
from planner.output.tongue import ENGLISH_BELOW


@pytest.mark.parametrize("text", ["یک " * 40, "साफ़, सूखी त्वचा पर " * 12, "Donaudampfschifffahrtsgesellschaft" * 4])
def test_no_row_is_wider_than_its_column_and_no_letter_is_lost(text: str) -> None:
    """Words stay whole where they fit, a word wider than the column is parted; the rows together are the text."""
    letters()
    rows = rows_of(text, REGULAR, 9.0, 100.0, leftward=text[0] == "ی")

    assert all(placed_line(row, REGULAR, 9.0, leftward=text[0] == "ی").wide_pt <= 100.02 for row in rows)
    assert "".join(rows).replace(" ", "") == text.replace(" ", "")


def test_english_below_takes_its_own_lines() -> None:
    """One line each: the English is lower by a line in smaller type, and never under seven points."""
    letters()
    alone = SetText("Haut", PLAIN, leftward=False).wrap(200.0, 500.0)[1]
    made = SetText(f"Haut{ENGLISH_BELOW}skin", PLAIN, leftward=False)

    assert alone < made.wrap(200.0, 500.0)[1] < 2.0 * alone
    assert made.lines[1].size_pt >= 7.0
