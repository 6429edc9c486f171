"""One rule for each part and kind of load; a hold where a part could not be screened."""

from __future__ import annotations

from pathlib import Path

from planner.finding import Verdict
from planner.job import read_job
from planner.strength import Screened, Unscreened, strength_rules


def test_a_part_without_a_figure_is_a_hold_with_a_question(heron: Path) -> None:
    """The reason is told, at every scale."""
    (rule,) = strength_rules(read_job(heron), [Screened(part="jaw", known=False, unknown=Unscreened.UNSOUND)])

    assert rule.at(1.0).verdict is Verdict.HOLD
    assert "its mesh is not sound" in rule.at(0.5).why
    assert rule.at(1.0).question
