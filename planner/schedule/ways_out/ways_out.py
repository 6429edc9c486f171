"""Ways out: what would bring devices forward, each planned for all jobs and told with its figures, best first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from planner.phrases import day_words, plural
from planner.schedule.calendar.job_tasks import JobLoads, begin_min
from planner.schedule.calendar.schedule_records import PrintRun
from planner.schedule.calendar.timetable import Problem
from planner.schedule.hands.hand_steps import placed_steps
from planner.schedule.solver.solve import EXACT_N, solved
from planner.schedule.ways_out.job_changes import Change, Split, changes, split_change

SOONER_H = 6
"""A device in time is told how to be ready sooner by this or more; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One change, when the device would be ready with it, how many days late that is, and the plates without a time.

    ``ready`` is None where some plate, or the work by hand after them, still has no time. ``costs`` says what the
    change takes. ``solved`` is False where a first schedule was made, not the best: the plan itself is ready by about
    then.
    """

    what: str
    ready: datetime | None
    late_days: int | None
    unmet_n: int
    costs: str = ""
    solved: bool = True

    @property
    def late(self) -> bool:
        """Whether the deadline is missed, or no date is known."""
        return self.ready is None or bool(self.late_days)


def ways_out(
    jobs: tuple[JobLoads, ...], today: Sequence[Way], splits: Sequence[Split] = ()
) -> tuple[tuple[Way, ...], ...]:
    """Return for every job the ways that help it, the one that is ready first at the head.

    ``today`` says what each job has as it is. A late job gets every way that helps and, at last, the deadline that
    would be met; one in time only a split that makes it ready ``SOONER_H`` earlier. What is changed holds for all
    jobs. More than a few plates are dispatched, not solved: the order of the ways is what matters then.
    """
    parted = [ways_of(split_change(jobs, split)) for split in splits]
    others = [ways_of(change) for change in changes(jobs)] if any(way.late for way in today) else []
    helping = []
    for number, now in enumerate(today):
        mine = [ways[number] for ways in ([*others, *parted] if now.late else parted)]
        better = [way for way in mine if (way_rank(way) < way_rank(now) if now.late else _much_sooner(way, now))]
        helping.append((*sorted(better, key=way_rank), *later_deadline(now)))
    return tuple(helping)


def _much_sooner(way: Way, now: Way) -> bool:
    """Return whether a way makes the device ready so much earlier that it is worth knowing."""
    return way.ready is not None and now.ready is not None and now.ready - way.ready >= timedelta(hours=SOONER_H)


def later_deadline(today: Way) -> tuple[Way, ...]:
    """Return the way of a later deadline; none where it is kept or no date is known."""
    if today.ready is None or not today.late_days:
        return ()
    what = f"agree on {day_words(today.ready)} as the deadline"
    costs = f"{plural(today.late_days, 'day')} of waiting"
    return (Way(what=what, ready=today.ready, late_days=0, unmet_n=0, costs=costs),)


def way_rank(way: Way) -> tuple[int, datetime]:
    """Return what a way is ranked by."""
    return way.unmet_n, way.ready or datetime.max  # noqa: DTZ901  only compared


def ways_of(change: Change) -> tuple[Way, ...]:
    """Return when every job is ready under a change."""
    problem = Problem.of(change.jobs)
    exact = len(problem.tasks) <= EXACT_N
    try:
        placed = solved(problem.tasks, problem.shop, problem.terms).placed if exact else problem.dispatched()
    except ValueError:
        placed = ()
    late_days = sum(problem.judge.by_job(placed).values())
    costs = change.costs(placed, problem.shop) if placed else ""
    if placed and len(change.jobs) > 1:
        costs += f"; all jobs together are then {late_days} d late"
    return tuple(
        _way(change.what, job, [run for run in placed if run.job == number], problem, costs, exact=exact)
        for number, job in enumerate(change.jobs)
    )


def _way(what: str, job: JobLoads, placed: Sequence[PrintRun], problem: Problem, costs: str, *, exact: bool) -> Way:
    """Return when a device is ready whose plates run so, and how late that is."""
    unmet_n = len(job.loads) - len(placed)
    free = max((run.free_min for run in placed), default=begin_min(job, problem.wall))
    runs = placed_steps(job.steps, problem.shop.attended, free)
    ready = None
    if not unmet_n and runs is not None:
        ready = problem.wall.at(runs[-1].end_min if runs else free)
    deadline = job.calendar.deadline
    late_days = None if ready is None or deadline is None else max(0, (ready.date() - deadline).days)
    return Way(what=what, ready=ready, late_days=late_days, unmet_n=unmet_n, costs=costs, solved=exact)
