"""What the schedule says about dates that are missed, and about plates and hands without a time."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from planner.finding import Evidence, Finding, Verdict
from planner.job import Calendar, Job
from planner.phrases import day_words, moment
from planner.plan.dates.hands_work import FIT
from planner.plan.dates.spool_ends import spool_end_findings
from planner.schedule import Clocks

SOURCE = "the job's [plan] and the estimates"


def timing_findings(job: Job, clocks: Clocks | None, sooner: timedelta = timedelta()) -> tuple[Finding, ...]:
    """Return what the schedule says about the deadline, the fitting, and about what has no time.

    ``sooner`` is how much sooner the plates may be done within the range of what they usually take.
    """
    if clocks is None or clocks.over or job.calendar is None:
        return ()
    return (
        *_without_time(clocks),
        *_past(job.calendar, clocks),
        *_missed(job.calendar, clocks, sooner),
        *spool_end_findings(clocks),
    )


def _without_time(clocks: Clocks) -> Iterator[Finding]:
    """Yield what has no time at all."""
    for run in clocks.table.runs:
        if run.start is None:
            yield _caution("plan.no-time", f"plate {run.plate}", f"plate {run.plate} has no time: {run.reason}")
    if clocks.steps is None:
        told = "there is no time within a year for the work by hand after the last plate: add attended hours"
        yield _caution("plan.no-hands", "work by hand", told)


def _past(calendar: Calendar, clocks: Clocks) -> Iterator[Finding]:
    """Yield dates of the job that contradict each other."""
    deadline, fitting, start = calendar.deadline, calendar.fitting, clocks.table.start
    if deadline is not None and deadline < start.date():
        days = (start.date() - deadline).days
        told = (
            f"the deadline is {days} d before the plan's start and cannot be kept: correct start or deadline in [plan]"
        )
        yield _caution("plan.past", "deadline", told)
    if deadline is not None and fitting is not None and fitting.date() > deadline:
        told = (
            f"the fitting on {moment(fitting)} is after the deadline, {day_words(deadline)}: "
            "correct one of them in [plan]"
        )
        yield _caution("plan.past", "fitting", told)


def _missed(calendar: Calendar, clocks: Clocks, sooner: timedelta) -> Iterator[Finding]:
    """Yield the dates that are missed: each is a hold, because somebody counts on them."""
    deadline = calendar.deadline
    if deadline is not None and clocks.ready is None:
        yield _hold("deadline", f"the device has no date at all, so the deadline, {day_words(deadline)}, is not kept")
    elif deadline is not None and clocks.ready is not None and clocks.ready.date() > deadline:
        days = (clocks.ready.date() - deadline).days
        told = f"the device is ready on {moment(clocks.ready)}, {days} d after the deadline"
        yield _hold("deadline", told, usual=(clocks.ready - sooner).date() <= deadline)
    if calendar.fitting is not None:
        ready = _ready_to_fit(clocks)
        if ready is None or ready > calendar.fitting:
            when = f"only ready to be fitted on {moment(ready)}" if ready else "never ready to be fitted"
            told = f"the device is {when}; the fitting is on {moment(calendar.fitting)}"
            yield _hold("fitting", told, usual=ready is not None and ready - sooner <= calendar.fitting)


def _ready_to_fit(clocks: Clocks) -> datetime | None:
    """Return when everything before the fitting is done; None where that is never."""
    if clocks.steps is None or clocks.table.unmet:
        return None
    before = [run.end_min for run in clocks.steps if run.step.name != FIT]
    return clocks.table.at(max([clocks.table.cleared_min, *before]))


def _hold(feature: str, why: str, *, usual: bool = False) -> Finding:
    """Return the hold for a date that is missed; ``usual`` where the usual time of the plates decides."""
    return Finding(
        rule="plan.late",
        part="",
        feature=feature,
        verdict=Verdict.HOLD,
        why=why,
        remedy="choose one of the ways out, or agree on a later date and write it into [plan]",
        source=SOURCE,
        evidence=Evidence.USUAL if usual else Evidence.STATED,
    )


def _caution(rule: str, feature: str, why: str) -> Finding:
    """Return a caution of the schedule: it changes no verdict about the device."""
    return Finding(
        rule=rule,
        part="",
        feature=feature,
        verdict=Verdict.GO,
        why=why,
        caution=why,
        source=SOURCE,
        evidence=Evidence.STATED,
    )
