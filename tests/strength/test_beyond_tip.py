"""A go says of parts that carry what grips by a cord that a weight at the tip is not in it."""

from __future__ import annotations

from planner.assembly import claims_of
from planner.finding import Verdict
from planner.plan import Prepared
from planner.strength.beyond_tip import beyond_tips


def test_what_carries_the_herons_jaws_is_told_that_a_weight_at_their_tip_is_not_judged(heron_ready: Prepared) -> None:
    """All from the deck to the anchors on the arm carry the jaws; the jaw itself is screened with the load at its tip."""
    claims = claims_of(heron_ready.job, heron_ready.surveys).claims
    found = beyond_tips(heron_ready.job, claims, heron_ready.movement, 15.0)

    assert {"yoke", "link", "saddle", "deck", "anchor"} <= set(found)
    assert "jaw" not in found
    assert "at the tip of jaw" in found["yoke"]
    assert beyond_tips(heron_ready.job, claims, None, 15.0) == {}


def test_a_go_says_what_is_not_judged(heron_ready: Prepared) -> None:
    """At the job's size, of the yoke; nothing of that is said of the jaw."""
    found = [rule.at(1.065) for rule in heron_ready.strength]
    rules = {one.part: one for one in found}

    assert rules["yoke"].verdict is Verdict.GO
    assert "a weight that hangs at the tip of jaw" in rules["yoke"].why
    assert "a weight that hangs" not in rules["jaw"].why
