"""Tonight: one line about the first start: by when, or not that day."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from planner.timing.allowed import starts_of
from planner.timing.task import Placed, Shop


def tonight(placed: Sequence[Placed], shop: Shop, begin: datetime) -> str:
    """Return what to start first and by when; empty where nothing has a time."""
    if not placed:
        return ""
    run = min(placed, key=lambda each: (each.start, each.plate))
    start = begin + timedelta(minutes=run.start)
    last = next((b for a, b in starts_of(shop, run.end - run.start) if a <= run.start <= b), run.start)
    by = begin + timedelta(minutes=last)
    today = start.date() == begin.date()
    clock = f"before {by:%H:%M}, or not {'today' if today else 'that day'}"
    limit = "any time" if by.date() > start.date() else clock
    if today:
        return f"plate {run.plate} on {run.printer}: start {limit}"
    when = f"{start:%a %d %b %H:%M}"
    return f"nothing starts today: the next is plate {run.plate} on {run.printer}, {when}; start {limit}"
