"""Today: what begins today, and what should have been ordered."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from planner.output.chapter_page.today import on_day, tasks_of


def test_today_holds_what_begins_today_and_orders_that_are_overdue(sums: Any) -> None:
    """What starts today is listed at its hour; an order whose day is over stays on the list until it is told as bought."""
    day = datetime.fromisoformat(sums["planned_at"]).date()
    overdue = {
        "item": "nut M3",
        "n": 4.0,
        "unit": "pcs",
        "order_by": f"{day - timedelta(days=3)}",
        "by": f"{day}",
        "jobs": ["R-07"],
    }
    now, _ = on_day(tasks_of({**sums, "buy": [overdue]}), day)

    assert now[0].what == "Order 4 pcs nut M3"
    assert any(task.what == "M-1: assemble, R-07" and task.hour == "20:00" for task in now)
    starts = [row for row in sums["schedule"] if row["start"] and row["start"].startswith(str(day))]
    assert sum(task.what.startswith("Start ") for task in now) == len(starts) > 0
    gone, _ = on_day(tasks_of({**sums, "buy": []}), day - timedelta(days=40))
    assert gone == []
