"""What a chapter still costs, as plain JSON types."""

from __future__ import annotations

from typing import Any

from planner.layers import Amount
from planner.plan import ChapterMoney, Shared


def money_json(money: ChapterMoney, shared: Shared) -> dict[str, Any]:
    """Return what is still to be spent, by kind, for one device and for one that is delivered."""
    return {
        **_amount(money.total),
        "budget": shared.budget,
        "currency": money.currency,
        "devices": money.devices_n,
        "lines": [{"what": what, **_amount(amount)} for what, amount in money.lines.items()],
        "device": None if money.device is None else _amount(money.device),
        "delivered": None if money.delivered is None else _amount(money.delivered),
        "missing": list(money.missing),
    }


def _amount(amount: Amount) -> dict[str, float]:
    """Return a number with its range."""
    return {"low": amount.low, "expected": amount.value, "high": amount.high}
