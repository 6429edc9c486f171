"""Rules that were bound before are found again by what they were bound from."""

from __future__ import annotations

from planner.rules.of_job.known_rules import known_of
from planner.rules.rule import Rule


def test_rules_are_found_by_the_same_measurement_and_equal_facts() -> None:
    """The same survey and an equal tuple of facts give them; an equal survey that is another object does not."""
    survey, alike, rules = ["measured"], ["measured"], list[Rule]()
    kept = [((survey, None), ("down", 1), rules)]

    assert known_of(kept, (survey, None), ("down", 1)) is rules
    assert known_of(kept, (alike, None), ("down", 1)) is None
    assert known_of(kept, (survey, None), ("down", 2)) is None
