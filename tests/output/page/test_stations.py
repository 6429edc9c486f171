"""Stations: every finding stands at one of them, and the line at the top says how each went."""

from __future__ import annotations

from planner.finding import worst
from planner.output.page.stations import by_station, stops, verdicts_of
from planner.output.words.wording import VERDICTS
from planner.plan import Plan


def test_every_finding_stands_at_one_station(plan: Plan) -> None:
    """Size, fit and print share all findings of the plan, none twice."""
    found = by_station(plan)

    assert sum(map(len, found.values())) == len(plan.findings)
    assert all(f.rule.startswith("size.") or "mesh." in f.rule for f in found["size"])
    assert worst(f for findings in found.values() for f in findings) is worst(plan.findings)


def test_seven_stops_in_their_order(plan: Plan) -> None:
    """Numbered from 1 to 7, from size to hand-over; nothing is released by planning it."""
    line = stops(plan, verdicts_of(by_station(plan)), VERDICTS)

    assert [stop[0] for stop in line] == list(range(1, 8))
    assert [stop[1] for stop in line] == ["size", "fit", "print", "finish", "assemble", "test", "hand-over"]
    assert line[-1][3] == "not released"
