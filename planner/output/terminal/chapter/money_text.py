"""What a chapter still costs, in one line."""

from __future__ import annotations

from typing import Any

from planner.phrases import plural


def money_line(sums: dict[str, Any]) -> str:
    """Return what is left to be spent, for one device and one that is delivered, and what is not counted."""
    money = sums["money"]
    if not money["devices"]:
        return "Money: nothing is left to be spent"
    ends = f"{money['low']:.2f} to {money['high']:.2f} {money['currency']}"
    budget = "" if money["budget"] is None else f", budget {money['budget']:.2f}"
    each = f"{money['device']['expected']:.2f} a device, {money['delivered']['expected']:.2f} one that is delivered"
    missing = f"; not counted: {'; '.join(money['missing'])}" if money["missing"] else ""
    devices = plural(money["devices"], "device")
    return f"Money: {money['expected']:.2f} ({ends}) for {devices}{budget}; {each}{missing}"
