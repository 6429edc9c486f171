"""Dates in words: ready by plan and in simulated runs, and what would help."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from planner.output.words.date_words import ready_words, way_words
from planner.plan import Plan
from planner.schedule import Way


def test_ready_names_both_dates_and_the_deadline(plan: Plan) -> None:
    """If nothing fails, in 90 of 100 simulated runs, on average, and how often the deadline is met."""
    assert plan.clocks is not None
    words = ready_words(replace(plan.clocks, kept_percent=97.4))

    assert words.startswith("ready ")
    assert "if nothing fails" in words
    assert "in 90 of 100 runs" in words
    assert words.endswith("the deadline is met in 97 of 100.")
    assert ready_words(replace(plan.clocks, ready=None)) == ""


def test_an_average_beyond_ninety_runs_is_explained(plan: Plan) -> None:
    """Where a few runs end far later, the average is after the date that 90 of 100 reach."""
    assert plan.clocks is not None
    late = replace(plan.clocks, ready_expected=datetime(2027, 1, 1), ready_p90=datetime(2026, 12, 31))

    assert "because a few runs end much later" in ready_words(late)


def test_what_would_help_says_when_and_at_what_cost() -> None:
    """A date with the days late and the cost; about, where only a first calendar was made; no date where none is."""
    way = Way(what="one more printer", ready=datetime(2026, 12, 5, 18, 0), late_days=2, unmet_n=0, costs="1 printer")

    assert way_words(way) == "one more printer: ready Sat 5 Dec 18:00, 2 d late; cost: 1 printer"
    assert "ready about Sat" in way_words(replace(way, solved=False))
    assert way_words(replace(way, ready=None, unmet_n=3, costs="")) == "one more printer: no time found for 3 plates"
