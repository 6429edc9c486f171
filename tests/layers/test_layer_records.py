"""Amounts add and scale with their ranges."""

from __future__ import annotations

from planner.layers import ZERO, Amount


def test_ranges_go_along() -> None:
    """Value, low and high each add up and are multiplied; zero changes nothing (by hand)."""
    one, other = Amount(value=2.0, low=1.0, high=4.0), Amount(value=10.0, low=9.0, high=12.0)

    assert one + other == Amount(value=12.0, low=10.0, high=16.0)
    assert one.times(3.0) == Amount(value=6.0, low=3.0, high=12.0)
    assert one + ZERO == one
