"""Times and dates in a terminal: what to start tonight, when it is ready, and what helps when it is late."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest

from planner.output.terminal.clocks_text import show_clocks
from planner.plan import Plan
from planner.schedule import Way
from tests.output.terminal.consoles import console
from tests.plan.jobs import changed


def test_dates_are_said_in_sentences(plan: Plan) -> None:
    """Tonight, the coupon that comes first and why, hours of printing and of hands, and when it is ready."""
    out, written = console()
    show_clocks(out, plan)
    text = " ".join(written.getvalue().split())

    assert "Tonight: " in text
    assert "Print the coupon, a small test piece, first: " in text
    assert "are not in the totals." in text
    assert "Time: printing " in text
    assert "Ready " in text


def test_without_a_calendar_no_date_is_said(plan: Plan) -> None:
    """No dates, no text about them."""
    out, written = console()
    show_clocks(out, changed(plan, clocks=None, coupon=None))

    assert "Ready" not in written.getvalue()
    assert "Time:" not in written.getvalue()


@pytest.mark.parametrize(
    ("late", "title"), [(True, "What would help, soonest first"), (False, "What would make it ready sooner")]
)
def test_what_would_help_stands_below(plan: Plan, late: bool, title: str) -> None:
    """Each change with its date, in the order given; without a date it is what would help, else what is sooner."""
    assert plan.clocks is not None
    ways = tuple(
        Way(what=what, ready=datetime(2026, 12, day, 12), late_days=None, unmet_n=0)
        for day, what in ((4, "b"), (5, "a"))
    )
    out, written = console()
    ready = None if late else plan.clocks.ready
    show_clocks(out, changed(plan, clocks=replace(plan.clocks, ways=ways, ready=ready)))
    text = written.getvalue()

    assert text.index(title) < text.index(" - b: ready Fri 4 Dec") < text.index(" - a: ready")
