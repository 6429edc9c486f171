"""The accuracy page is current, wide, and true in a sample; ``python -m tests.accuracy`` recomputes all of it."""

from __future__ import annotations

import re

import pytest

from tests.accuracy.page import PAGE, all_rows, told
from tests.accuracy.row import Row
from tests.accuracy.sources import SOURCES

ROWS = all_rows()
NUMBERED = re.compile(r"\b1[789]\d\d\b|\b20[0-2]\d\b|doi 10\.\d{4,}/")


def test_the_page_has_eighty_rows_of_twenty_five_sources_each_with_its_year_or_number() -> None:
    """No source is a name alone, none is listed that no row uses, and no row stands twice."""
    assert len(ROWS) >= 80
    assert len({row.source for row in ROWS}) >= 25
    assert {row.source for row in ROWS} == set(SOURCES)
    assert [text for text in SOURCES.values() if not NUMBERED.search(text)] == []
    assert len({(row.source, row.what) for row in ROWS}) == len(ROWS)


def test_the_page_that_is_kept_has_just_these_rows() -> None:
    """In order, with what is expected and allowed; ours and the difference are of the machine that wrote it."""
    kept = [
        line
        for line in PAGE.read_text(encoding="utf-8").splitlines()
        if line.startswith("| ") and "| source |" not in line
    ]
    without = [_apart(line)[:3] + _apart(line)[5:] for line in kept]

    assert without == [_apart(told(row, 0.0))[:3] + _apart(told(row, 0.0))[5:] for row in ROWS]


@pytest.mark.parametrize("row", [row for row in ROWS if not row.slow][::3], ids=lambda row: f"{row.source}: {row.what}")
def test_a_row_is_what_its_source_says(row: Row) -> None:
    """Every third row, computed anew: within what it may, and as the page has it."""
    ours = row.ours()
    (line,) = [
        each
        for each in PAGE.read_text(encoding="utf-8").splitlines()
        if each.startswith(f"| {SOURCES[row.source]} | {row.what} |")
    ]

    assert abs(ours - row.expected) <= row.within
    assert float(_apart(line)[3]) == pytest.approx(ours, rel=1e-3, abs=1e-3)


def _apart(line: str) -> list[str]:
    """Return the cells of a line."""
    return [cell.strip() for cell in line.strip("|").split(" | ")]
