"""Who is late: by the schedule, or only because something comes too late."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from planner.output.chapter_page.late import late_rows
from planner.plan import Leads, Plan, buy_list


def test_what_comes_too_late_makes_a_device_late_that_the_schedule_does_not(plan: Plan) -> None:
    """In time, with everything bought; 60 days of delivery make it late, and say what; already late, the schedule says so."""
    assert plan.clocks is not None
    now = datetime(2026, 12, 1, 12)
    buys = buy_list({"a": plan}, {}, Leads(days=60.0), now.date())
    assert late_rows({"a": plan}, None, (), now) == []
    (row,) = late_rows({"a": plan}, None, buys, now)
    assert row["by_lead"]
    assert "at the earliest" in row["why"]
    assert plan.clocks.ready is not None
    later = replace(plan.clocks, ready=plan.clocks.ready + timedelta(days=90))
    (row,) = late_rows({"a": replace(plan, stage=replace(plan.stage, clocks=later))}, None, buys, now)
    assert "by_lead" not in row
