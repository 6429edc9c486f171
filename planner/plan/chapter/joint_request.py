"""Asked: what a plan wants of a calendar that it shares with other jobs."""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace
from math import ceil

from planner.job import Calendar, Printer, printers_of
from planner.plan.dates.hands_work import hand_steps
from planner.plan.dates.plate_loads import plate_loads
from planner.plan.plan_record import Plan
from planner.plan.plates.plate_inputs import Makings
from planner.schedule import JointJob, PlateLoad, Wall, tasks_of


def asked_of(
    plan: Plan,
    makings: Makings,
    common: Calendar,
    printers: Sequence[Printer] | None = None,
    loads: Sequence[PlateLoad] | None = None,
    watched: AbstractSet[int] = frozenset(),
) -> JointJob:
    """Return a plan's tasks by the job's own rules, its hands' work and its deadline.

    Where ``loads`` are given they stand for the plates, on ``printers``; a rule holds where the job and the common
    calendar both have it. Somebody has to be beside the ``watched`` plates. None starts before the job's own begin.
    """
    own = plan.job.calendar
    assert own is not None
    rules = replace(
        own,
        start=common.start,
        first_article=own.first_article and common.first_article,
        one_printer=own.one_printer and common.one_printer,
    )
    mine = plate_loads(makings, plan.plates)[0] if loads is None else loads
    tasks = tasks_of(mine, rules, printers or printers_of(plan.job))
    wall = Wall.of(common)
    begin = max(0, ceil(wall.minutes_to(own.start))) if own.start else 0
    return JointJob(
        tasks=tuple(replace(task, watched=task.plate in watched, not_before_min=begin) for task in tasks),
        steps=hand_steps(makings, wall),
        deadline=own.deadline,
    )
