"""Plans weighed: how late jobs are beside each other by a dispatched schedule, to compare ways to part plates."""

from __future__ import annotations

from collections.abc import Mapping

from planner.packing import Plate
from planner.plan.dates.timed_plan import JobPlates, job_loads, wall_of_jobs
from planner.schedule import JobLoads, late_days_of

Late = tuple[int, int, int]
"""Plates without a time, days late of all jobs, and how many plates there are: the smaller, the better."""


class Weighing:
    """Says how late jobs are; what a schedule needs of the same plates is worked out once."""

    def __init__(self, jobs: Mapping[str, JobPlates]) -> None:
        self.wall = wall_of_jobs(tuple(jobs.values()))
        self.known: dict[str, list[tuple[tuple[Plate, ...], JobLoads]]] = {}

    def late(self, jobs: Mapping[str, JobPlates]) -> Late:
        """Return how late all jobs are."""
        unmet_n, days = late_days_of([self._loads(folder, job) for folder, job in jobs.items()])
        return unmet_n, days, sum(len(job.plates) for job in jobs.values())

    def _loads(self, folder: str, job: JobPlates) -> JobLoads:
        """Return what a schedule needs of a job, as it was worked out for the same plates."""
        mine = self.known.setdefault(folder, [])
        found = next((loads for plates, loads in mine if plates is job.plates), None)
        if found is None:
            found = job_loads(job, self.wall)
            mine.append((job.plates, found))
        return found
