"""One line tells how a device moves, and only what passes is in it."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.output.words.move_words import move_line


def _found(rule: str, measured: float, limit: float | None, verdict: Verdict = Verdict.GO) -> Finding:
    return Finding(rule=rule, part="jaw", feature="pull cord", verdict=verdict, measured=measured, limit=limit, why="x")


def test_range_travel_pull_and_return_are_told_together() -> None:
    """Two joints reach, travel is there, it opens again; a pull that holds is told elsewhere."""
    line = move_line(
        [
            _found("move.range", 30.0, 25.0),
            _found("move.range", 30.0, 25.0),
            _found("move.travel", 9.1, 17.1),
            _found("move.pull", 56.0, 36.0, Verdict.HOLD),
            _found("move.return", 4.0, 0.0),
        ]
    )
    assert line == (
        "It moves: 2 joints can reach what is needed; pull cord takes 9.1 of 17.1 mm of travel; opens again by itself."
    )


def test_without_movement_there_is_no_line() -> None:
    """Other rules say nothing here."""
    assert move_line([_found("bore.tight", 3.0, 2.9)]) == ""
