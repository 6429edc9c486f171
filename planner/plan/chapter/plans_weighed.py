"""Plans weighed: how late jobs are beside each other by a dispatched schedule, to compare ways to part plates."""

from __future__ import annotations

from collections.abc import Mapping

from planner.plan.dates.timed_plan import JobPlates, job_loads, wall_of_jobs
from planner.schedule import late_days_of

Late = tuple[int, int, int]
"""Plates without a time, days late of all jobs, and how many plates there are: the smaller, the better."""


def late_of(jobs: Mapping[str, JobPlates]) -> Late:
    """Return how late all jobs are."""
    wall = wall_of_jobs(tuple(jobs.values()))
    unmet_n, days = late_days_of([job_loads(job, wall) for job in jobs.values()])
    return unmet_n, days, sum(len(job.plates) for job in jobs.values())
