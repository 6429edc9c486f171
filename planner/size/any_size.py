"""Rules for a page that tries many sizes: what they say of the size speaks of the one that is tried."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planner.job import Job
from planner.rules import HoldLifted, Rule, constants
from planner.size.measures_agree import MeasureScale, disagree
from planner.size.untried_size import untried


def rules_at_any_size(job: Job, rules: Sequence[Rule], asked: Sequence[MeasureScale]) -> tuple[Rule, ...]:
    """Return bound rules with those about the job's own size exchanged for those about any size."""
    said = constants(disagree(job, 0.0, asked, stated=False))
    others: list[Rule] = [*untried(job), *said]
    about = {rule.rule: rule for rule in others}
    return tuple(_instead(rule, about.get(rule.rule)) for rule in rules)


def _instead(rule: Rule, other: Rule | None) -> Rule:
    """Return another rule in the place of one, lifted where that was lifted."""
    if other is None:
        return rule
    return replace(rule, inner=other) if isinstance(rule, HoldLifted) else other
