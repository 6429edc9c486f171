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


def test_a_size_in_brackets_reads_as_written_where_a_row_begins_with_it() -> None:
    """Words kept from left to right that end a row and begin the next: "(2.95 mm)" has its brackets and unit in place.

    Each row is ordered by itself; Unicode Bidirectional Algorithm (UAX 9): a number after a left-to-right mark is so.
    """
    text = "\u200eyoke middle screw\u200e \u0641\u064a \u200eb2 (2.95\u00a0mm)\u200e"
    first = placed_line(text[: text.index(" (")], REGULAR, 9.0, leftward=True)
    rows = rows_of(text, REGULAR, 9.0, first.wide_pt + 1.0, leftward=True)
    last = placed_line(rows[-1], REGULAR, 9.0, leftward=True)
    across = "".join(one.text for one in sorted(last.pieces, key=lambda one: one.left_pt))

    assert len(rows) == 2
    assert across.replace("\u200e", "").replace("\u00a0", " ").strip() == "(2.95 mm)"
