"""The order of findings: what undermines all others comes first, then the worst."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.rules.kinds.finding_order import by_severity


def _finding(rule: str, verdict: Verdict) -> Finding:
    return Finding(rule=rule, part="a", verdict=verdict, why="because")


def test_a_doubtful_unit_comes_before_a_no_go() -> None:
    """A part in the wrong unit fails everywhere else, too; where the unit is right it has no such place."""
    unit, over, good = (
        _finding("mesh.unit", Verdict.HOLD),
        _finding("bed.over", Verdict.NO_GO),
        _finding("mesh.unit", Verdict.GO),
    )

    assert by_severity([over, good, unit]) == (unit, over, good)
