"""What limits the jobs of a chapter."""

from __future__ import annotations

from collections.abc import Mapping

from planner.plan import Plan, Shared, on_one_calendar


def test_a_budget_that_is_too_small_is_the_limit(plans: Mapping[str, Plan]) -> None:
    """Three devices and one cent: money binds, and what is short is told. Without a budget nothing does."""
    poor = on_one_calendar(plans, None, Shared(budget=0.01)).limits

    assert poor is not None
    assert poor.what == "money"
    assert poor.short.endswith("EUR short")
    assert on_one_calendar(plans, None, Shared()).limits is None
