"""Who is not ready by the deadline, by how many days and why: the schedule, missing hands, or what comes too late."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from planner.job import kind_of
from planner.output.chapter_page.waiting import called, slack_days
from planner.plan import Chapter, Plan, Purchase, late_by_lead


def late_rows(
    plans: Mapping[str, Plan], chapter: Chapter | None, buys: tuple[Purchase, ...], now: datetime
) -> list[dict[str, Any]]:
    """Return the jobs that are not ready by their deadline, with the days (None: no date at all) and why.

    Those that are late only because something comes too late say so under ``by_lead``.
    """
    rows: list[dict[str, Any]] = []
    waits = late_by_lead(plans, buys, now.date())
    unmet = chapter.unmet_hands if chapter else {}
    for folder, plan in plans.items():
        clocks, calendar = plan.clocks, plan.job.calendar
        if clocks is None or clocks.over or calendar is None or calendar.deadline is None:
            continue
        slack = slack_days(plan)
        days = None if slack is None else -slack
        if days is None or days > 0:
            whys = [finding.why for finding in plan.findings if kind_of(finding.rule).late]
            why = unmet.get(folder) or next(iter(whys), "it has no date")
            rows.append({"job": called(folder, plans), "days": days, "why": why})
        elif folder in waits:
            days, why = waits[folder]
            rows.append({"job": called(folder, plans), "days": days, "why": why, "by_lead": True})
    return sorted(rows, key=lambda row: (row["days"] is not None, -(row["days"] or 0), row["job"]))
