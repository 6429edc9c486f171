"""What to do when a plate fails: every cause has a rule with a reason and a source."""

from __future__ import annotations

from planner.job.profiles.failure_rules import DOES, read_failure_rules


def test_every_cause_says_what_to_do_and_why() -> None:
    """One of four ways, a reason and a source; each way is used."""
    rules = read_failure_rules()

    assert {rule.does for rule in rules.values()} <= set(DOES)
    assert all(rule.why and rule.source and rule.about for rule in rules.values())
    assert all(cause == rule.cause for cause, rule in rules.items())


def test_smoke_stops() -> None:
    """Nothing is weighed against a fire."""
    assert read_failure_rules()["smoke"].does == "stop"
