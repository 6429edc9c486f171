"""What a chapter still costs, in one line."""

from __future__ import annotations

from planner.output.terminal.chapter.money_text import money_line

ENDS = {"low": 8.0, "expected": 10.0, "high": 13.0}


def test_the_sum_its_range_and_what_is_not_counted_stand_in_one_line() -> None:
    """Two devices: all, each, the budget, and what nobody stated; of none nothing is left."""
    money = {"low": 16.0, "expected": 20.0, "high": 26.0, "budget": 30.0, "currency": "EUR", "devices": 2}
    money |= {"device": ENDS, "delivered": {**ENDS, "expected": 10.5}, "missing": ["post: [money] post_each"]}

    told = "Money: 20.00 (16.00 to 26.00 EUR) for 2 devices, budget 30.00; 10.00 a device, 10.50 one that is delivered"
    assert money_line({"money": money}) == f"{told}; not counted: post: [money] post_each"
    assert money_line({"money": {"devices": 0}}) == "Money: nothing is left to be spent"
