"""Shared hands: the work after the last plates given to a chapter's people, and each job's dates that follow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from math import ceil

from planner.plan.plan_record import Plan
from planner.schedule import Clocks, Helper, JobHands, Staffed, Step, StepRun, Wall, shop_of, staffed


@dataclass(frozen=True, slots=True, kw_only=True)
class HandRow:
    """A stretch of work: who does which step of which job, by its folder, from when to when."""

    person: str
    folder: str
    step: str
    start: datetime
    end: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedHands:
    """All plans with the dates that people can keep, who does what, and by folder why something cannot be done.

    Plans whose dates are others now are judged by whoever asked for them.
    """

    plans: Mapping[str, Plan]
    rows: tuple[HandRow, ...] = ()
    unmet: Mapping[str, str] | None = None


def with_helpers(plans: Mapping[str, Plan], helpers: Sequence[Helper]) -> SharedHands:
    """Return plans whose steps are done by helpers, the job that is due first at the head; none: as they are."""
    timed = {name: plan for name, plan in plans.items() if plan.clocks is not None and plan.job.calendar is not None}
    if not helpers or not timed:
        return SharedHands(plans=plans)
    calendars = [plan.job.calendar for plan in timed.values() if plan.job.calendar is not None]
    calendar = min(calendars, key=lambda each: each.start or datetime.max)  # noqa: DTZ901  only compared
    wall, names = Wall.of(calendar), list(timed)
    asked: dict[int, JobHands] = {}
    for number, name in enumerate(names):
        clocks, own = timed[name].clocks, timed[name].job.calendar
        if clocks is not None and own is not None and clocks.steps and not clocks.table.unmet:
            free = clocks.table.at(clocks.table.cleared_min)
            begin = ceil(wall.minutes_to(max(free, own.start or free)))
            asked[number] = JobHands(
                steps=tuple(_by_clock(run.step, clocks.table.wall, wall) for run in clocks.steps),
                begin_min=begin,
                deadline=own.deadline,
            )
    found = staffed(asked, helpers, shop_of(calendar, (), wall).attended, wall)
    changed = {names[n]: _with_runs(timed[names[n]], found, n, wall) for n in asked}
    rows = tuple(
        HandRow(
            person=run.person,
            folder=names[run.job],
            step=run.step,
            start=wall.at(run.start_min),
            end=wall.at(run.end_min),
        )
        for run in found.runs
    )
    unmet = {names[n]: why for n, why in found.unmet.items()}
    return SharedHands(plans={name: changed.get(name, plan) for name, plan in plans.items()}, rows=rows, unmet=unmet)


def _by_clock(step: Step, own: Wall, wall: Wall) -> Step:
    """Return a step whose earliest minute is told by the clock of all jobs, not by that of its own job's schedule."""
    if not step.not_before_min:
        return step
    return replace(step, not_before_min=max(0, ceil(wall.minutes_to(own.at(step.not_before_min)))))


def _with_runs(plan: Plan, found: Staffed, number: int, wall: Wall) -> Plan:
    """Return a plan whose steps are where people do them, with the day that follows; it is to be judged again."""
    clocks = plan.clocks
    assert clocks is not None
    minute = found.ready_min[number]
    ready = None if minute is None else wall.at(minute)
    later = replace(clocks, steps=_steps(clocks, found, number, wall), ready=ready)
    if ready is None:
        later = replace(later, ready_p90=None, ready_expected=None, kept_percent=None)
    else:
        p90, expected = (max(each, ready) if each else None for each in (clocks.ready_p90, clocks.ready_expected))
        deadline = plan.job.calendar.deadline if plan.job.calendar else None
        kept = 0.0 if deadline is not None and ready.date() > deadline else clocks.kept_percent
        later = replace(later, ready_p90=p90, ready_expected=expected, kept_percent=kept)
    return replace(plan, stage=replace(plan.stage, clocks=later))


def _steps(clocks: Clocks, found: Staffed, number: int, wall: Wall) -> tuple[StepRun, ...] | None:
    """Return the steps with the minutes at which somebody begins and ends each, by the plan's own clock."""
    if found.ready_min[number] is None:
        return None
    runs, own = list[StepRun](), clocks.table.wall
    for run in clocks.steps or ():
        mine = [each for each in found.runs if (each.job, each.step) == (number, run.step.name)]
        if not mine:  # a step of no length
            runs.append(run)
            continue
        start, end = min(each.start_min for each in mine), max(each.end_min for each in mine)
        begin_min, end_min = (round(own.minutes_to(wall.at(minute))) for minute in (start, end))
        runs.append(StepRun(step=run.step, start_min=begin_min, end_min=end_min))
    return tuple(runs)
