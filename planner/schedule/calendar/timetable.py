"""Timetable: the plates of all jobs become tasks, tasks one calendar, and a calendar dates that a person can keep."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from planner.job import Calendar
from planner.packing import Run
from planner.schedule.calendar.allowed_starts import longest_run_min
from planner.schedule.calendar.first_start import first_start_line
from planner.schedule.calendar.job_tasks import (
    JobLoads,
    PlateLoad,
    printers_of_all,
    shop_of_all,
    tasks_of,
    terms_of,
    wall_of,
)
from planner.schedule.calendar.schedule_records import Answer, PrintRun, Shop, Task, by_key
from planner.schedule.calendar.schedule_terms import Judge, ScheduleTerms, with_first_articles
from planner.schedule.calendar.wall_clock import Wall
from planner.schedule.risk.checkpoint import Marks
from planner.schedule.risk.simulate import Chance, Played, played
from planner.schedule.solver.calendar_proof import proved
from planner.schedule.solver.dispatch import TRIES_N, first_calendar
from planner.schedule.solver.solve import SEED, solved, unmet

QUICK_N, LEAST_N = 30, 9
"""Up to so many plates all orders are tried; so many orders at least."""
SCATTERED = "parts that move on each other are printed on several printers, because no printer has time for all of them"


@dataclass(frozen=True, slots=True, kw_only=True)
class Timetable:
    """When every plate of one job runs, on a schedule that it may share with other jobs.

    ``placed`` are its runs in minutes from the ``wall`` clock's start, ``answer`` is the calendar of all jobs.
    ``played`` is what failures and slow plates make of it. ``unmet`` are plates without a time. ``first_start`` is one
    line about the first start. ``start`` is when the job may begin.
    """

    wall: Wall
    start: datetime
    runs: tuple[Run, ...]
    placed: tuple[PrintRun, ...]
    answer: Answer
    shop: Shop
    tasks: tuple[Task, ...]
    unmet: tuple[int, ...]
    played: Played
    first_start: str
    notes: tuple[str, ...]

    def at(self, minute: float) -> datetime:
        """Return a minute of the calendar as a date."""
        return self.wall.at(minute)

    @property
    def finish(self) -> datetime | None:
        """The last planned end; None where no plate has a time."""
        return max((run.end for run in self.runs if run.end), default=None)

    @property
    def cleared_min(self) -> int:
        """When the last bed is cleared, in minutes from the wall clock's start."""
        return max((run.free_min for run in self.placed), default=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """The plates of all jobs that have a time somewhere, and what each job asks for."""

    wall: Wall
    shop: Shop
    tasks: tuple[Task, ...]
    terms: tuple[ScheduleTerms, ...]

    @staticmethod
    def of(jobs: Sequence[JobLoads]) -> Problem:
        """Return the problem of some jobs; plates that have no time on any printer stay out.

        A first article is one of those that have a time: what waits for a plate without one would wait for nothing.
        """
        wall, shop = wall_of([job.calendar for job in jobs]), shop_of_all(jobs)
        tasks, terms = list[Task](), list[ScheduleTerms]()
        for number, job in enumerate(jobs):
            left_out = {plate for _, plate in unmet(tasks_of(job, wall, number), shop)}
            kept = replace(job, loads=tuple(load for load in job.loads if load.plate not in left_out))
            tasks += (replace(t, reel=t.reel if t.reel in shop.reels_n else "") for t in tasks_of(kept, wall, number))
            terms.append(terms_of(kept, wall))
        return Problem(wall=wall, shop=shop, tasks=tuple(tasks), terms=tuple(terms))

    @property
    def judge(self) -> Judge:
        """What calendars are judged by."""
        return Judge(self.terms, self.shop)

    def dispatched(self, tries_n: int | None = None) -> tuple[PrintRun, ...]:
        """Return a first calendar, not the best; empty where some plate finds no time. Of many plates few are tried."""
        tries_n = tries_n or max(LEAST_N, round(min(1.0, QUICK_N / max(1, len(self.tasks))) * TRIES_N))
        return first_calendar(self.tasks, self.judge, SEED, tries_n=tries_n) if self.tasks else ()


def timetables(jobs: Sequence[JobLoads]) -> tuple[Timetable, ...]:
    """Return every job's times in the best schedule found for all; each calendar has a start.

    A plate that no printer may run within the rules gets no time, and the reason says so; the others get theirs.
    """
    problem = Problem.of(jobs)
    answer, tasks, scattered = _solved(problem)
    wrong = proved(answer.placed, tasks, problem.shop, problem.terms)
    if wrong:
        raise AssertionError(f"a calendar does not hold: {wrong[0]}")  # never shown: the solver keeps the same rules
    tasks = tuple(with_first_articles(tasks, problem.judge, answer.placed))
    chances = {
        printer.name: Chance(
            per_hour=printer.failure_per_hour.value, ratio=_ratio(jobs, printer.name), goes_on=Marks.of(printer)
        )
        for printer in printers_of_all(jobs)
    }
    ratios = {(k, load.plate): load.ratio_by for k, job in enumerate(jobs) for load in job.loads}
    plays = played(answer.placed, by_key(tasks), problem.shop, chances, SEED, ratios, jobs_n=len(jobs))
    return tuple(
        _table(job, number, replace(problem, tasks=tasks), answer, plays[number], scattered)
        for number, job in enumerate(jobs)
    )


def _table(
    job: JobLoads, number: int, problem: Problem, answer: Answer, plays: Played, scattered: frozenset[int]
) -> Timetable:
    """Return one job's part of the schedule."""
    placed = tuple(run for run in answer.placed if run.job == number)
    tasks = tuple(task for task in problem.tasks if task.job == number)
    have = {run.plate for run in placed}
    left_out = tuple(load.plate for load in job.loads if load.plate not in have)
    wall, shop = problem.wall, problem.shop
    runs = [_run(each, job, wall) for each in placed]
    runs += [_without_time(load, job.calendar, shop) for load in job.loads if load.plate in left_out]
    return Timetable(
        wall=wall,
        start=job.calendar.start or wall.start,
        runs=tuple(runs),
        placed=placed,
        answer=answer,
        shop=shop,
        tasks=tasks,
        unmet=left_out,
        played=plays,
        first_start=first_start_line(placed, by_key(tasks), shop, wall),
        notes=(SCATTERED,) if number in scattered else (),
    )


def _solved(problem: Problem) -> tuple[Answer, tuple[Task, ...], frozenset[int]]:
    """Solve; where there is no answer give up staying together first, then the last plates of the year.

    The last are the jobs whose plates are on several printers all the same.
    """
    tasks, scattered = problem.tasks, frozenset[int]()
    while True:
        try:
            return solved(tasks, problem.shop, problem.terms), tasks, scattered
        except ValueError:
            if any(task.stay for task in tasks):
                scattered = frozenset(task.job for task in tasks if task.stay)
                tasks = tuple(replace(task, stay="") for task in tasks)
            else:
                tasks = _without_last(tasks)


def _without_last(tasks: Sequence[Task]) -> tuple[Task, ...]:
    """Return tasks without the last tenth, taken from all jobs in turn."""
    place: dict[int, int] = {}
    turns = []
    for task in tasks:
        place[task.job] = place.get(task.job, 0) + 1
        turns.append((place[task.job], task.job, task))
    kept_n = len(tasks) - max(1, len(tasks) // 10)
    return tuple(task for _, _, task in sorted(turns, key=lambda turn: turn[:2])[:kept_n])


def _ratio(jobs: Sequence[JobLoads], printer: str) -> tuple[float, float, float]:
    """Return real over planned time on a printer: that of the first plate that may run there."""
    loads: Mapping[bool, PlateLoad] = {printer in x.takes_s: x for job in reversed(jobs) for x in reversed(job.loads)}
    return loads[True].ratio if True in loads else (1.0, 1.0, 1.0)


def _run(placed: PrintRun, job: JobLoads, wall: Wall) -> Run:
    """Return a run with its dates, to the second, and how late it is."""
    takes_s = next(load.takes_s[placed.printer] for load in job.loads if load.plate == placed.plate)
    start = wall.at(placed.start_min)
    end = wall.after(timedelta(minutes=placed.start_min, seconds=round(takes_s)))
    deadline = job.calendar.deadline
    late_days = (end.date() - deadline).days if deadline is not None else 0
    late = f"late: it ends {late_days} days after the deadline" if late_days > 0 else ""
    return Run(plate=placed.plate, printer=placed.printer, start=start, end=end, reason=late)


def _without_time(load: PlateLoad, calendar: Calendar, shop: Shop) -> Run:
    """Return the run of a plate that has no time, with the reason."""
    longest_min = longest_run_min(shop)
    if not load.takes_s:
        reason = "no printer of the job takes it"
    elif load.shortest_s <= 60.0 * longest_min:
        reason = "there is no time for it within a year: add attended hours, or printers"
    else:
        what = "time without quiet hours" if calendar.unattended else "attended window"
        ways = "split the plate, " if load.pieces_n > 1 else "it is one piece, so no split helps: "
        reason = (
            f"it takes {load.shortest_s / 3600:.1f} h and the longest {what} is {longest_min / 60:.1f} h: "
            f"{ways}use a faster printer, or allow unattended printing"
        )
    return Run(plate=load.plate, printer=min(load.takes_s, default=""), start=None, end=None, reason=reason)
