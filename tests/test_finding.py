"""Findings: the worst verdict decides, and nothing found is a go."""

from __future__ import annotations

from planner.finding import Finding, Verdict, worst


def _finding(rule: str, verdict: Verdict) -> Finding:
    return Finding(rule=rule, part="a", verdict=verdict, why="because")


def test_the_worst_verdict_decides() -> None:
    """Nothing found is a go; a no-go beats a hold."""
    assert worst(()) is Verdict.GO
    assert worst([_finding("a", Verdict.NO_GO), _finding("b", Verdict.HOLD)]) is Verdict.NO_GO
