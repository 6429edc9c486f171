"""Effort is counted: what a search has spent, and whether it goes on."""

from __future__ import annotations

from planner.packing.search.effort import Effort


def test_a_search_goes_on_until_its_effort_is_spent() -> None:
    """A part of an effort is a share of what is left; the whole goes on while something is left."""
    effort = Effort(4.0)
    effort.spend(1.0)
    half = effort.part(0.5)

    assert (effort.left_s, half.most_s) == (3.0, 1.5)
    half.spend(1.5)
    assert (half.goes_on, effort.goes_on) == (False, True)
    effort.spend(half.spent_s + 1.5)
    assert not effort.goes_on


def test_nothing_ends_a_search_without_a_limit() -> None:
    """A first answer is given whatever it takes."""
    effort = Effort()
    effort.spend(1e9)

    assert effort.goes_on
