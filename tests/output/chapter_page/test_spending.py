"""What a chapter still costs, as plain JSON types."""

from __future__ import annotations

from planner.layers import Amount
from planner.output.chapter_page.spending import money_json
from planner.plan import ChapterMoney, Shared


def test_every_amount_has_its_range_and_none_is_null() -> None:
    """One line of 1 to 3, expected 2, and a budget of 9; of no device there is no average."""
    amount = Amount(value=2.0, low=1.0, high=3.0)
    money = ChapterMoney(
        currency="EUR", devices_n=0, lines={"post": amount}, total=amount, device=None, delivered=amount, missing=("x",)
    )
    told = money_json(money, Shared(budget=9.0))

    ends = {"low": 1.0, "expected": 2.0, "high": 3.0}
    assert told == {
        **ends,
        "budget": 9.0,
        "currency": "EUR",
        "devices": 0,
        "lines": [{"what": "post", **ends}],
        "device": None,
        "delivered": ends,
        "missing": ["x"],
    }
