"""Asked: what a plan wants of a calendar that it shares with other jobs."""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace

from planner.finding import Verdict
from planner.job import Calendar, Material, Printer, printers_of, read_hands_on
from planner.planned.estimates import Estimates
from planner.planned.hands import hand_steps
from planner.planned.loads import plate_loads
from planner.planned.record import Plan
from planner.timing import JointJob, PlateLoad, Wall, tasks_of


def asked_of(
    plan: Plan,
    common: Calendar,
    printers: Sequence[Printer] | None = None,
    loads: Sequence[PlateLoad] | None = None,
    watched: AbstractSet[int] = frozenset(),
) -> JointJob:
    """Return a plan's tasks by the job's own rules, its hands' work and its deadline.

    Where ``loads`` are given they stand for the plates, on ``printers``; a rule holds where the job and the common
    calendar both have it. Somebody has to be beside the ``watched`` plates.
    """
    own = plan.job.calendar or common
    rules = replace(
        common,
        first_article=own.first_article and common.first_article,
        one_printer=own.one_printer and common.one_printer,
    )
    tasks = tasks_of(loads_of(plan) if loads is None else loads, rules, printers or printers_of(plan.job))
    return JointJob(
        tasks=tuple(replace(task, watched=task.plate in watched) for task in tasks),
        steps=hand_steps(plan.job, plan.parts, works_of(plan), read_hands_on(), Wall.of(common)),
        deadline=own.deadline,
    )


def loads_of(plan: Plan) -> tuple[PlateLoad, ...]:
    """Return how long every plate of a plan takes on every printer of its job."""
    material = material_of(plan)
    return plate_loads(plan.job, material, plan.parts, plan.plates, Estimates(plan.job, material, plan.parts))[0]


def material_of(plan: Plan) -> Material:
    """Return the material that a plan chose."""
    return next(m for m in plan.job.materials if m.name == plan.material.choice)


def works_of(plan: Plan) -> int:
    """Return how many openings need work by hand."""
    return sum(finding.verdict is Verdict.GO_WITH_WORK for finding in plan.findings)
