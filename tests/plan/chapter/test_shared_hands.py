"""A chapter's people, its spools, and what limits it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from planner.finding import Verdict
from planner.plan import Plan, Shared, on_one_calendar
from planner.plan.chapter.shared_hands import with_helpers
from planner.schedule import Helper


def test_people_do_the_work_and_a_late_device_is_on_hold(plans: Mapping[str, Plan]) -> None:
    """One maker of a minute a week never builds three devices: each lacks a date, is late, and people are the limit."""
    slow = (Helper(code="M-1", roles=("maker", "tester", "fitter"), week_h=1 / 60),)
    chapter = on_one_calendar(plans, None, Shared(helpers=slow))

    assert chapter.limits is not None
    assert chapter.limits.what == "hands"
    assert all(plan.verdict is not Verdict.GO for plan in chapter.plans.values())
    late = [name for name, plan in chapter.plans.items() if any(f.rule == "plan.late" for f in plan.findings)]
    assert sorted(late) == sorted(plans)


def test_dates_follow_from_who_does_what(plans: Mapping[str, Plan]) -> None:
    """With a maker and a tester every device is ready when its last stretch of work ends."""
    helpers = (Helper(code="M-1", roles=("maker",)), Helper(code="T-1", roles=("tester", "fitter")))
    found = with_helpers(plans, helpers)

    assert not found.unmet
    for name, plan in found.plans.items():
        assert plan.clocks is not None
        assert plan.clocks.ready == max(row.end for row in found.rows if row.folder == name)
        assert plan.job.calendar is not None
        assert isinstance(plan.job.calendar.deadline, date)
    assert with_helpers(plans, ()).plans is plans


def test_a_step_begins_no_sooner_by_the_clock_of_its_own_job(plans: Mapping[str, Plan]) -> None:
    """By hand: a clock that begins two days after the others', and work that waits for its minute 600: ten hours into it.

    So does what waits for a day that was agreed, or for a plate that still runs.
    """
    name = next(iter(plans))
    clocks = plans[name].clocks
    assert clocks is not None
    assert clocks.steps
    table = clocks.table
    wall = replace(table.wall, start=table.wall.start + timedelta(days=2))
    steps = tuple(replace(run, step=replace(run.step, not_before_min=600)) for run in clocks.steps)
    later = replace(clocks, steps=steps, table=replace(table, wall=wall))
    stage = replace(plans[name].stage, clocks=later)
    helpers = (Helper(code="M-1", roles=("maker",)), Helper(code="T-1", roles=("tester", "fitter")))
    found = with_helpers({**plans, name: replace(plans[name], stage=stage)}, helpers)

    begins = min(row.start for row in found.rows if row.folder == name)
    assert begins >= wall.start + timedelta(minutes=600)
