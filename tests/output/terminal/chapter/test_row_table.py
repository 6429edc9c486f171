"""Rows in a terminal."""

from __future__ import annotations

import io

from rich.console import Console

from planner.output import row_table


def test_rows_are_shown_with_units_and_nothing_is_said_to_be_nothing() -> None:
    """By hand: grams and hours with their units in the head, what is not known as a dash, no rows as a sentence."""
    out = io.StringIO()
    console = Console(file=out, width=80)
    rows = row_table(
        "plates",
        [{"id": "R-07.1", "mass_g": 40.25, "duration_s": 5400.0, "start": "2026-12-01T17:30:00", "pieces": {"jaw": 2}}],
    )
    console.print(rows)
    console.print(row_table("stock", []))
    text = out.getvalue()

    assert text.splitlines()[1].split() == ["id", "mass,", "g", "duration,", "h", "start", "pieces"]
    assert text.splitlines()[2].split() == ["R-07.1", "40.2", "1.5", "Tue", "1", "Dec", "17:30", "jaw", "x", "2"]
    assert text.splitlines()[-1] == "stock: nothing yet"
