"""What each recipient waits for, in one line, and by how many days the device is ready before it is due."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from planner.phrases import moment
from planner.plan import Chapter, Plan
from planner.schedule import StepRun

Rows = Sequence[Mapping[str, Any]]


def called(folder: str, plans: Mapping[str, Plan]) -> str:
    """Return what people call a job: its recipient's code, else its folder."""
    return plans[folder].job.recipient or folder


def waits_for(plan: Plan, runs: Rows, hands: Rows, running: Rows, unmet: str = "") -> str:
    """Return what a device waits for next: an answer, a plate that runs, the next plate, then work by hand.

    Parameters
    ----------
    runs, hands, running
        Its rows of the chapter's schedule, of its hands and of the plates that run, in order of their start.
    unmet
        Why its work by hand finds nobody; empty where it does.
    """
    if not plan.verdict.passes and plan.findings:
        first = plan.findings[0]
        return f"an answer: {first.why}" if not first.question else first.question
    if running:
        return f"{running[0]['plate']} on {running[0]['printer']}, until {_when(running[0]['end'])}"
    dated = [row for row in runs if row["start"]]
    if dated:
        return f"{_name(dated[0])} on {dated[0]['printer']}, {_when(dated[0]['start'])}"
    if runs:
        return f"a time for {_name(runs[0])}: {runs[0]['reason'] or 'it has none'}"
    if unmet:
        return f"somebody: {unmet}"
    if hands:
        return f"{hands[0]['person']}: {hands[0]['step']}, {_when(hands[0]['start'])}"
    steps = _steps(plan)
    if steps and plan.clocks is not None:
        return f"{steps[0].step.name}, {moment(plan.clocks.table.at(steps[0].start_min))}"
    return "a calendar: its job has no [plan] start" if plan.clocks is None else "nothing: all its work is done"


def waiting_json(
    folder: str,
    plan: Plan,
    schedule: Rows,
    hands: Rows,
    running: Rows,
    chapter: Chapter | None,
) -> dict[str, Any]:
    """Return what a job waits for, and its slack."""
    code = plan.job.recipient or folder
    waits = waits_for(
        plan,
        [row for row in schedule if row["folder"] == folder],
        [row for row in hands if row["job"] == code],
        [row for row in running if row["job"] == code],
        chapter.unmet_hands.get(folder, "") if chapter else "",
    )
    return {"waits_for": waits, "slack_days": slack_days(plan)}


def slack_days(plan: Plan) -> int | None:
    """Return the days between ready and due, negative where it is late; None without both."""
    calendar = plan.job.calendar
    if plan.clocks is None or plan.clocks.ready is None or calendar is None or calendar.deadline is None:
        return None
    return (calendar.deadline - plan.clocks.ready.date()).days


def _steps(plan: Plan) -> tuple[StepRun, ...]:
    """Return the work by hand in the plan's own calendar."""
    return plan.clocks.steps or () if plan.clocks is not None else ()


def _name(row: Mapping[str, Any]) -> str:
    """Return what a plate is called."""
    return str(row["id"]) if row["id"] else f"plate {row['plate']}"


def _when(text: str) -> str:
    """Return a moment as people write it."""
    return moment(datetime.fromisoformat(text))
