"""Dates that are missed: a hold, resting on the usual time only where that decides; contradictions are told."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

from planner.finding import Evidence, Finding, Verdict
from planner.plan import Plan
from planner.plan.dates.date_findings import timing_findings

NO_TIME = timedelta()


def _found(plan: Plan, sooner: timedelta = NO_TIME, clocks: Any = None, **calendar: Any) -> list[Finding]:
    """Return findings under a changed calendar; spools left out."""
    assert plan.job.calendar is not None
    assert plan.clocks is not None
    job = replace(plan.job, calendar=replace(plan.job.calendar, **calendar))
    return list(timing_findings(job, replace(plan.clocks, feeds=(), **(clocks or {})), sooner))


def _ready(plan: Plan) -> datetime:
    """Return when the device is ready."""
    assert plan.clocks is not None
    assert plan.clocks.ready is not None
    return plan.clocks.ready


def test_a_deadline_is_kept_on_its_day_and_missed_the_day_before(heron_plan: Plan) -> None:
    """Ready within the day is kept; a day earlier is a hold that says one day."""
    day = _ready(heron_plan).date()
    (late,) = _found(heron_plan, deadline=day - timedelta(days=1))

    assert _found(heron_plan, deadline=day) == []
    assert (late.rule, late.feature, late.verdict) == ("plan.late", "deadline", Verdict.HOLD)
    assert "1 d after the deadline" in late.why
    assert late.evidence is Evidence.STATED


def test_a_miss_that_the_range_of_usual_times_may_save_rests_on_these(heron_plan: Plan) -> None:
    """A day sooner saves a deadline missed by a day, not one missed by two."""
    day = _ready(heron_plan).date()
    found = [_found(heron_plan, timedelta(days=1), deadline=day - timedelta(days=n))[0].evidence for n in (1, 2)]

    assert found == [Evidence.USUAL, Evidence.STATED]


def test_a_device_without_a_date_keeps_no_deadline(heron_plan: Plan) -> None:
    """Neither hands nor a date: both are said."""
    found = _found(heron_plan, clocks={"ready": None, "steps": None}, deadline=date(2027, 6, 1))

    assert [(f.rule, f.verdict) for f in found] == [("plan.no-hands", Verdict.GO), ("plan.late", Verdict.HOLD)]
    assert "no date at all" in found[1].why


def test_a_fitting_needs_all_steps_before_it_done(heron_plan: Plan) -> None:
    """No step of the sample is the fitting: at the very minute of its last step it is kept, a minute before missed."""
    ready = _ready(heron_plan)
    (late,) = _found(heron_plan, deadline=None, fitting=ready - timedelta(minutes=1))

    assert _found(heron_plan, deadline=None, fitting=ready) == []
    assert (late.feature, late.verdict) == ("fitting", Verdict.HOLD)


def test_dates_that_contradict_each_other_are_cautions(heron_plan: Plan) -> None:
    """A deadline three days before the start is told beside its hold; a fitting after the deadline, too."""
    past = _found(heron_plan, deadline=date(2026, 11, 28))
    later = _found(heron_plan, deadline=date(2026, 12, 20), fitting=datetime(2026, 12, 21, 10))

    assert [(f.rule, f.feature, f.verdict) for f in past] == [
        ("plan.past", "deadline", Verdict.GO),
        ("plan.late", "deadline", Verdict.HOLD),
    ]
    assert "3 d before the plan's start" in past[0].caution
    assert [(f.rule, f.feature) for f in later] == [("plan.past", "fitting")]


def test_a_plate_without_a_time_says_why(heron_plan: Plan) -> None:
    """Its number and the reason of its run, in a caution; without a calendar nothing is said at all."""
    assert heron_plan.clocks is not None
    runs = heron_plan.clocks.table.runs
    table = replace(heron_plan.clocks.table, runs=(replace(runs[0], start=None, reason="too long"), *runs[1:]))
    (found,) = _found(heron_plan, clocks={"table": table}, deadline=None)

    assert found.caution == f"plate {runs[0].plate} has no time: too long"
    assert timing_findings(heron_plan.job, None) == ()
