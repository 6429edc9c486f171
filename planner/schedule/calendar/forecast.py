"""Forecast: a first schedule of some plates, and when devices would be ready by it, to weigh ways to part plates."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from planner.schedule.calendar.job_tasks import JobLoads
from planner.schedule.calendar.schedule_records import by_key
from planner.schedule.calendar.schedule_terms import last_free_min, with_first_articles
from planner.schedule.calendar.timetable import Problem
from planner.schedule.calendar.weekly_spans import HORIZON_MIN
from planner.schedule.hands.hand_steps import placed_steps
from planner.schedule.risk.simulate import Chance, played
from planner.schedule.solver.solve import SEED


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """When a device would be ready, by plan and on average over simulated failures; None: not within a year.

    ``unmet_n`` plates have no time at all; ``late_days`` counts from the deadline, 0 without one.
    """

    ready: datetime | None
    expected: datetime | None
    late_days: int
    unmet_n: int


def forecast(job: JobLoads) -> Forecast:
    """Return the forecast of one job by a schedule that is dispatched, not solved: many ways are weighed by it."""
    problem = Problem.of([job])
    left_n = len(job.loads) - len(problem.tasks)
    placed = () if left_n else problem.dispatched()
    if not placed:
        return Forecast(ready=None, expected=None, late_days=0, unmet_n=left_n or len(problem.tasks))
    ratio = job.loads[0].ratio
    chances = {p.name: Chance(per_hour=p.failure_per_hour.value, ratio=ratio) for p in job.printers}
    tasks = by_key(with_first_articles(problem.tasks, problem.judge, placed))
    play = played(placed, tasks, problem.shop, chances, SEED)[0]

    def ready(minute: int) -> datetime | None:
        runs = placed_steps(job.steps, problem.shop.attended, min(minute, HORIZON_MIN))
        if runs is None:
            return None
        return problem.wall.at(runs[-1].end_min if runs else minute)

    free_min = last_free_min(placed)[0]
    return Forecast(
        ready=ready(free_min),
        expected=ready(max(free_min, round(play.expected_min))),  # a play ends with its last plate, not its bed
        late_days=problem.judge.late_days(0, free_min) if ready(free_min) else 0,
        unmet_n=0,
    )


def late_days_of(jobs: Sequence[JobLoads]) -> tuple[int, int]:
    """Return how many plates of all jobs have no time, and how many days late all are, by a dispatched schedule."""
    problem = Problem.of(jobs)
    left_n = sum(len(job.loads) for job in jobs) - len(problem.tasks)
    placed = problem.dispatched()
    if not placed:
        return left_n + len(problem.tasks), 0
    return left_n, sum(problem.judge.by_job(placed).values())
