"""Findings: the worst verdict decides, and what undermines all others comes first."""

from __future__ import annotations

from planner.finding import Finding, Verdict, by_severity, worst


def _finding(rule: str, verdict: Verdict) -> Finding:
    return Finding(rule=rule, part="a", verdict=verdict, why="because")


def test_the_worst_verdict_decides() -> None:
    """Nothing found is a go; a no-go beats a hold."""
    assert worst(()) is Verdict.GO
    assert worst([_finding("a", Verdict.NO_GO), _finding("b", Verdict.HOLD)]) is Verdict.NO_GO


def test_a_doubtful_unit_comes_before_a_no_go() -> None:
    """A part in the wrong unit fails everywhere else, too; where the unit is right it has no such place."""
    unit, over, good = (
        _finding("mesh.unit", Verdict.HOLD),
        _finding("bed.over", Verdict.NO_GO),
        _finding("mesh.unit", Verdict.GO),
    )

    assert by_severity([over, good, unit]) == (unit, over, good)
