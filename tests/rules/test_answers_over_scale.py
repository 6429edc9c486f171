"""The verdicts of a rule over all scales are what the rule itself says there."""

from __future__ import annotations

from planner.finding import Verdict
from planner.job import Override
from planner.rules import HoldLifted, Rule, steps_of
from tests.rules.questions.said import Says, hangs

NO, WORK, HOLD = Verdict.NO_GO, Verdict.GO_WITH_WORK, Verdict.HOLD
RULES: list[Rule] = [
    Says(below=NO, turn=0.9),
    hangs(Says(below=NO, turn=1.5), Says(below=NO, turn=1.5), Says(below=WORK, turn=0.8), None),
    hangs(None, Says(below=HOLD, turn=1.2), hangs(Says(below=NO), Says(below=NO, turn=1.1), None)),
]


def test_steps_say_what_the_rule_says() -> None:
    """At, beside and between all turns of plain, wrapped and doubly wrapped rules, holds lifted or not."""
    override = Override(rule="wall.thin", role="lead", reason="tried")
    held: list[Rule] = [HoldLifted(inner=rule, override=override) for rule in RULES]
    for rule in [*RULES, *held]:
        steps = steps_of(rule)
        for s in (0.1, 0.8, 0.85, 0.9, 1.0, 1.1, 1.15, 1.2, 1.3, 1.5, 1.7, 3.0):
            assert steps.at(s) is rule.at(s).verdict, (rule, s)
