"""Joint: one calendar for the plates of several jobs on shared printers, by deadlines.

Every job keeps its own order; jobs are merged in many ways, each merge is dispatched, and the one with the fewest days
late is kept. The first merge is by earliest due date, which is best for the latest job on one printer (Jackson 1955,
from memory; Pinedo, Scheduling, theorem on 1||Lmax, from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from planner.schedule.calendar.task import Placed, Shop, Task
from planner.schedule.calendar.wall_clock import Wall
from planner.schedule.hands.hand_steps import Step, placed_steps
from planner.schedule.solver.calendar_proof import proved
from planner.schedule.solver.dispatch import Dispatch
from planner.schedule.solver.solve import SEED, unmet

MERGES_N, MOVES_N = 120, 240
"""Merges that are tried, and moves of single plates in the best of them; each of 40 plates takes a few milliseconds."""
NEVER_DAYS = 366
Score = tuple[int, tuple[int, ...], float, int]
"""All days late together; days of each job (below 0: to spare), the latest first; minutes until ready; the last end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JointJob:
    """One job in a joint calendar: its tasks, what hands do after its last plate, and when it is due."""

    tasks: tuple[Task, ...]
    steps: tuple[Step, ...] = ()
    deadline: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Every job's runs by its own plate numbers, and how many days late all jobs are together."""

    runs: tuple[tuple[Placed, ...], ...]
    late_days: int
    ready_min: float
    """The sum over jobs of the minutes from the start until each is ready."""


def joint_calendar(jobs: Sequence[JointJob], shop: Shop, wall: Wall) -> Joint:
    """Return the calendar with the fewest days late that is found; plates without any time stay out.

    Raises
    ------
    ValueError
        Where a plate that could run alone finds no time beside the others within a year.
    """
    asked = [_ranked(job.tasks, unmet(job.tasks, shop), where, len(jobs)) for where, job in enumerate(jobs)]
    dispatch = Dispatch(shop)

    def tried(order: Sequence[Task]) -> tuple[Score, tuple[Placed, ...]] | None:
        placed = dispatch.placed(order)
        return (_score(jobs, placed, shop, wall), placed) if len(placed) == len(order) else None

    best: tuple[Score, tuple[Placed, ...]] | None = None
    kept: list[Task] = []
    for order in _merges(jobs, asked):
        found = tried(order)
        if found is not None and (best is None or found[0] < best[0]):
            best, kept = found, order
    if best is None:
        raise ValueError("the plates of all jobs together find no time within a year")
    rng = np.random.default_rng(SEED)
    for _ in range(MOVES_N if len(jobs) > 1 else 0):
        order = _moved(kept, rng, len(jobs))
        found = tried(order)
        if found is not None and found[0] <= best[0]:
            best, kept = found, order
    wrong = proved(best[1], [task for tasks in asked for task in tasks], shop)
    if wrong:
        raise AssertionError(f"a joint calendar does not hold: {wrong[0]}")  # never shown: dispatch keeps the rules
    split = tuple(
        tuple(replace(run, plate=run.plate // len(jobs)) for run in best[1] if run.plate % len(jobs) == where)
        for where in range(len(jobs))
    )
    runs = tuple(tuple(sorted(each, key=lambda run: (run.start, run.plate))) for each in split)
    return Joint(runs=runs, late_days=best[0][0], ready_min=best[0][2])


def _ranked(tasks: Sequence[Task], left_out: Sequence[int], where: int, jobs_n: int) -> list[Task]:
    """Return a job's tasks in its own order, numbered apart from others'; a rank waits for all lower ones of its job.

    Ranks say what tells most for least about this device, and nothing about another's.
    """
    meant = sorted((t for t in tasks if t.plate not in left_out), key=lambda t: (t.rank, bool(t.after), t.plate))
    return [
        replace(
            task,
            plate=task.plate * jobs_n + where,
            rank=0,
            after=tuple(
                sorted(
                    {
                        other.plate * jobs_n + where
                        for other in meant
                        if other.rank < task.rank or other.plate in task.after
                    }
                )
            ),
            stay=f"{where} {task.stay}" if task.stay else "",
        )
        for task in meant
    ]


def _merges(jobs: Sequence[JointJob], asked: Sequence[Sequence[Task]]) -> Iterator[list[Task]]:
    """Yield all jobs' tasks in one order, in many ways: job after job by due date, in turns by due date, and by lot."""
    rng = np.random.default_rng(SEED)
    due = {
        job: place
        for place, job in enumerate(sorted(range(len(jobs)), key=lambda k: (jobs[k].deadline or date.max, k)))
    }
    turns = [(0.0, 0.0), (float(len(jobs)), 0.0), *((float(rng.uniform(0, len(jobs))), 1.0) for _ in range(MERGES_N))]
    for turn, lot in turns if len(jobs) > 1 else turns[:1]:
        bent = {job: place + lot * float(rng.normal(0.0, len(jobs) / 2)) for job, place in due.items()}
        keyed = [
            (bent[job] + turn * index, due[job], index, task)
            for job, tasks in enumerate(asked)
            for index, task in enumerate(tasks)
        ]
        yield [task for *_, task in sorted(keyed, key=lambda each: each[:3])]


def _moved(order: Sequence[Task], rng: np.random.Generator, jobs_n: int) -> list[Task]:
    """Return an order with one plate elsewhere, between the plates of its job that stand before and after it."""
    at = int(rng.integers(len(order)))
    job = order[at].plate % jobs_n
    mine = [place for place, task in enumerate(order) if task.plate % jobs_n == job]
    where = mine.index(at)
    low = mine[where - 1] + 1 if where else 0
    high = mine[where + 1] - 1 if where + 1 < len(mine) else len(order) - 1
    changed = list(order)
    changed.insert(int(rng.integers(low, high + 1)), changed.pop(at))
    return changed


def _score(jobs: Sequence[JointJob], placed: Sequence[Placed], shop: Shop, wall: Wall) -> Score:
    """Return what a calendar is judged by, hands' work after the last plate included."""
    late, ready_sum = list[int](), 0.0
    for where, job in enumerate(jobs):
        free = max((run.free for run in placed if run.plate % len(jobs) == where), default=0)
        runs = placed_steps(job.steps, shop.attended, free)
        ready = NEVER_DAYS * 24 * 60 if runs is None else runs[-1].end if runs else free
        ready_sum += ready
        if job.deadline is not None:
            late.append((wall.at(ready).date() - job.deadline).days)
    return (
        sum(max(0, days) for days in late),
        tuple(sorted(late, reverse=True)),
        ready_sum,
        max((run.end for run in placed), default=0),
    )
