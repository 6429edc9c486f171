"""Which jobs of a chapter share one schedule, and which wait until others have had the printers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from planner.finding import Verdict
from planner.job import Calendar, kind_of, printers_of
from planner.plan.plan_record import Plan

ALIKE = ("zone", "attended", "quiet", "unattended", "people_n")
"""What must be the same in all jobs of one schedule: it is about the place, not about a device."""
WAITS = {
    Verdict.HOLD: "it is on hold, so it waits for the jobs that are not",
    Verdict.NO_GO: "it is a no-go, so it waits for the jobs that are not",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """Jobs that are scheduled together, by folder name; ``why`` they wait, empty where they do not."""

    plans: Mapping[str, Plan]
    why: str = ""

    @property
    def calendar(self) -> Calendar:
        """The calendar of its place; its start is that of the job that begins first."""
        found = [plan.job.calendar for plan in self.plans.values() if plan.job.calendar is not None]
        return min(found, key=lambda calendar: calendar.start or datetime.max)  # noqa: DTZ901  only compared


def turns(plans: Mapping[str, Plan]) -> tuple[Turn, ...]:
    """Return jobs in the order in which they get the printers.

    Those that can be built come before those on hold, and these before those that cannot work: a printer's hours on a
    device that is not released may be lost. Of one rank, jobs with the same hours share a schedule, and that of
    the earliest deadline comes first.
    """
    found: dict[tuple[int, tuple[object, ...]], dict[str, Plan]] = {}
    for name, plan in plans.items():
        key = waits_for(plan).severity, tuple(getattr(plan.job.calendar, key) for key in ALIKE)
        found.setdefault(key, {})[name] = plan
    order = sorted(found.items(), key=lambda row: (row[0][0], _due(row[1])))
    first = min((severity for (severity, _), _ in order), default=0)
    return tuple(
        Turn(plans=some, why=WAITS[waits_for(next(iter(some.values())))] if severity > first else "")
        for (severity, _), some in order
    )


def waits_for(plan: Plan) -> Verdict:
    """Return the verdict that a job waits by: its own, less what the calendar says; all that pass are one."""
    own = [finding.verdict for finding in plan.findings if "calendar" not in kind_of(finding.rule).asks]
    worst = max(own, key=lambda verdict: verdict.severity, default=Verdict.GO)
    return Verdict.GO if worst.passes else worst


def unlike_hours(plans: Mapping[str, Plan]) -> str:
    """Say which keys of ``[plan]`` differ between jobs that share a printer; empty where none does."""
    rows = [(plan.job.calendar, {printer.name for printer in printers_of(plan.job)}) for plan in plans.values()]
    keys = [
        key
        for key in ALIKE
        if any(
            getattr(one, key) != getattr(other, key) and mine & theirs
            for place, (one, mine) in enumerate(rows)
            for other, theirs in rows[:place]
        )
    ]
    if not keys:
        return ""
    return f"jobs on one printer differ in [plan] {', '.join(keys)}: each keeps its own, and they take turns on it"


def _due(plans: Mapping[str, Plan]) -> tuple[date, datetime]:
    """Return the earliest deadline of some jobs, then their earliest start."""
    found = [plan.job.calendar for plan in plans.values() if plan.job.calendar is not None]
    deadlines = [calendar.deadline for calendar in found if calendar.deadline]
    starts = [calendar.start for calendar in found if calendar.start]
    return min(deadlines, default=date.max), min(starts, default=datetime.max)  # noqa: DTZ901  only compared
