"""The board: every entry once, in its column, on its day."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from planner.output.chapter_page.day_board import day_board, entries_of


def test_each_entry_stands_once_on_the_board_in_its_column_on_its_day(sums: Any) -> None:
    """Counted by hand over the sums: every plate with a time under its printer, every step under its person."""
    today = datetime.fromisoformat(sums["planned_at"]).date()
    board = day_board(sums, today)
    shown = [
        (name, one.text)
        for day in board.days
        for name, cell in zip(board.columns, day.cells, strict=True)
        for one in cell
    ]
    timed = [row for row in sums["schedule"] if row["start"]]

    assert len(shown) + board.later_n == len(timed) + len(sums["hands"]) + sum(
        bool(c["start"]) for c in sums["coupons"]
    )
    assert ("M-1", "R-07 assemble") in shown
    assert board.days[0].today
    assert sum(len(rows) for rows in entries_of(sums).values()) == len(shown) + board.later_n
