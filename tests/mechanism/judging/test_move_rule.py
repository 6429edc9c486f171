"""Every rule of movement says who it is in its finding."""

from __future__ import annotations

from planner.finding import Verdict
from planner.mechanism.judging.move_rule import MoveRule


def test_a_finding_carries_part_feature_unit_and_source() -> None:
    """What is left out stays empty."""
    rule = MoveRule(part="jaw", feature="pull", rule="move.pull", unit="N", source="statics")
    found = rule.found(Verdict.HOLD, 3.0, 2.0, "too much")
    assert (found.part, found.feature, found.rule, found.unit, found.source) == (
        "jaw",
        "pull",
        "move.pull",
        "N",
        "statics",
    )
    assert (found.verdict, found.measured, found.limit, found.why) == (Verdict.HOLD, 3.0, 2.0, "too much")
    assert (found.remedy, found.question, found.caution) == ("", "", "")
