"""A release in a terminal: released or not, and what is missing."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from planner.output import blank, release, show_release
from planner.plan import Plan
from tests.output.terminal.consoles import console


def test_an_empty_record_lists_all_that_is_missing(plan: Plan) -> None:
    """NOT RELEASED first, each missing item with what to do, and where the sheet is."""
    judged = release(plan, blank(plan, "a4"), date(2026, 12, 20))
    out, written = console()
    show_release(out, plan, judged, Path("hand-over.html"))
    text = written.getvalue()

    assert text.startswith("NOT RELEASED")
    assert all(one.item.split(":")[0] in text for one in judged.missing)
    assert "hand-over sheet: hand-over.html" in text
    assert max(map(len, text.splitlines())) <= 80
