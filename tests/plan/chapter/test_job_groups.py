"""The order in which jobs of a chapter get the printers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime

from planner.finding import Finding, Verdict
from planner.job import Attended, Calendar
from planner.plan import Plan, on_one_calendar
from planner.plan.chapter.job_groups import turns, unlike_hours
from tests.conftest import MakeJob
from tests.plan.chapter.plates_and_posts import JOB, met, plan_of
from tests.plan.jobs import changed, planned, under
from tests.shapes import bored_plate, cuboid


def _with(plan: Plan, rule: str, verdict: Verdict, due: int, *, unattended: bool = False) -> Plan:
    """Return a plan with one finding alone and a calendar of its own."""
    calendar = Calendar(start=datetime(2026, 12, 1, 17, 30), deadline=date(2026, 12, due), unattended=unattended)
    job = replace(plan.job, calendar=calendar)
    finding = Finding(rule=rule, part="", feature="", verdict=verdict, why="", source="")
    return replace(changed(plan, job=job), findings=(finding,), verdict=verdict)


def test_what_can_be_built_comes_first_then_holds_then_no_gos(heron_plan: Plan) -> None:
    """By hand: two that pass and one that is only late share the first turn, other hours the second, then hold, then no-go."""
    plans = {
        "no-go": _with(heron_plan, "wall.thin", Verdict.NO_GO, 2),
        "hold": _with(heron_plan, "size.stale", Verdict.HOLD, 3),
        "late": _with(heron_plan, "plan.late", Verdict.HOLD, 9),
        "work": _with(heron_plan, "bore.tight", Verdict.GO_WITH_WORK, 8),
        "night": _with(heron_plan, "bore.tight", Verdict.GO, 20, unattended=True),
    }
    found = turns(plans)

    assert [list(turn.plans) for turn in found] == [["late", "work"], ["night"], ["hold"], ["no-go"]]
    assert [bool(turn.why) for turn in found] == [False, False, True, True]
    assert "unattended" in unlike_hours(plans)
    assert unlike_hours({name: plans[name] for name in ("late", "work")}) == ""


def test_where_nothing_passes_nobody_waits(heron_plan: Plan) -> None:
    """Two jobs on hold share a turn and are not told to wait."""
    plans = {name: _with(heron_plan, "size.stale", Verdict.HOLD, 3) for name in "ab"}

    assert [(list(turn.plans), turn.why) for turn in turns(plans)] == [(["a", "b"], "")]


def test_jobs_with_different_hours_never_meet_on_a_printer(plans: Mapping[str, Plan], make_job: MakeJob) -> None:
    """One job has Saturdays, three have evenings, all have one printer: each keeps its own hours, no two plates meet, and it is told."""
    away = plan_of(make_job, attended=(Attended(days=(5,), from_min=540, to_min=1320),))
    together = on_one_calendar({**plans, "d": away})
    runs = [run for plan in together.plans.values() for run in plan.runs]

    assert "attended" in together.note
    assert all(run.start is not None and run.start.weekday() == 5 for run in together.plans["d"].runs)
    assert all(run.start is not None and run.start.hour >= 17 for run in together.plans["a"].runs)
    assert met(runs) == []


def test_a_job_that_cannot_be_built_waits_for_those_that_can(make_job: MakeJob) -> None:
    """By hand: the one due first is a no-go, so the other has the printer first, and the no-go begins when it is done."""
    sound = plan_of(make_job, deadline=date(2026, 12, 20), coupon="never")
    thin = make_job(
        JOB.replace('duty = "cover"', 'duty = "load"').replace("45", "46"),
        plate=bored_plate(40, 30, 6, [(20.0, 15.0, 5.45, 64)]),
        block=cuboid(60, 40, 0.5),
    )
    broken = planned(under(thin, deadline=date(2026, 12, 1), coupon="never"))
    assert sound.verdict.passes
    assert broken.verdict is Verdict.NO_GO
    together = on_one_calendar({"broken": broken, "sound": sound}).plans

    ends = [run.end for run in together["sound"].runs if run.end is not None]
    assert [run.end for run in sound.runs if run.end is not None] == ends
    assert all(run.start is not None and run.start > max(ends) for run in together["broken"].runs)
    assert together["broken"].clocks is not None
    assert "waits" in " ".join(together["broken"].clocks.table.notes)


def test_a_job_that_is_late_alone_does_not_wait_for_that(make_job: MakeJob) -> None:
    """Lateness is no reason to be put behind: of two jobs that differ in nothing but that, the late one stays first."""
    due = {"late": date(2026, 11, 30), "early": date(2026, 12, 20)}
    plans = {name: plan_of(make_job, deadline=day, coupon="never") for name, day in due.items()}
    together = on_one_calendar({"early": plans["early"], "late": plans["late"]}).plans

    assert plans["late"].verdict is Verdict.HOLD
    ends = {name: max(run.end for run in plan.runs if run.end) for name, plan in together.items()}
    assert ends["late"] < ends["early"]
