"""Made room: plates that make a job late change places with plates of jobs that have time, and nothing else moves.

Ejection on a calendar (Glover 1996, Discrete Appl. Math. 65:223, from memory): what is too late takes the place of
something at least as long that is not due yet, and that finds another gap.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from planner.schedule.calendar.schedule_records import Key, PrintRun, Task, by_key
from planner.schedule.calendar.schedule_terms import Judge, last_free_min
from planner.schedule.solver.calendar_proof import proved
from planner.schedule.solver.stays import Gaps

CHOICES_N = 40
"""So many choices of plates that give way are tried for each late job: the first by time to spare, others by lot."""
NEAR_N = 25
"""A lot is drawn among so many plates that have most time to spare."""
TRIES_N = 80
"""Calendars that are tried at most; one of 300 plates takes a tenth of a second."""

HALF_DAY_MIN = 12 * 60
NEVER_MIN = 10**7
"""Time to spare of a job that is never late."""

Late = tuple[int, int]
"""Days late of all jobs, and minutes over their last minute in time."""


def with_room(
    tasks: Sequence[Task], judge: Judge, placed: tuple[PrintRun, ...], seed: int, tries_n: int = TRIES_N
) -> tuple[PrintRun, ...]:
    """Return a calendar with fewer days late, found by moving few plates; the same one where none is found."""
    rng, least = np.random.default_rng(seed), lateness(placed, judge)
    while least[0] and tries_n > 0:
        for job, loose in _ways(tasks, placed, judge, rng):
            tries_n -= 1
            tried = _placed_again(tasks, judge, placed, job, loose)
            late = lateness(tried, judge) if tried else least
            if late < least and not proved(tried, tasks, judge.shop, judge.terms):
                placed, least = tried, late
                break
            if tries_n <= 0:
                break
        else:
            break
    return placed


def lateness(placed: Sequence[PrintRun], judge: Judge) -> Late:
    """Return how late a calendar is."""
    days, over = 0, 0
    for job, minute in last_free_min(placed).items():
        late = judge.late_days(job, minute)
        if late:
            days, over = days + late, over + minute - (judge.latest_free_min(job, 0) or 0)
    return days, over


def moved_n(tasks: Sequence[Task], placed: Sequence[PrintRun]) -> int:
    """Return how many plates start more than half a day from where the last plan had them, or on another printer."""
    stood = {task.key: task.stood for task in tasks if task.stood}
    return sum(
        run.key in stood and (stood[run.key][1] != run.printer or abs(stood[run.key][0] - run.start_min) > HALF_DAY_MIN)
        for run in placed
    )


def _ways(
    tasks: Sequence[Task], placed: Sequence[PrintRun], judge: Judge, rng: np.random.Generator
) -> Iterator[tuple[int, set[Key]]]:
    """Yield late jobs, the latest first, with the plates that are placed again for each.

    Those are its late ones and others that give way; once, all of its own.
    """
    late = {job: days for job, days in judge.by_job(placed).items() if days}
    order = sorted(late, key=lambda job: (-late[job], job))
    known, free = by_key(tasks), last_free_min(placed)
    spare = {job: NEVER_MIN if (most := judge.latest_free_min(job, 0)) is None else most - free[job] for job in free}
    for choice in range(CHOICES_N):
        for job in order:
            latest = judge.latest_free_min(job, 0) or 0
            mine = [run for run in placed if run.job == job and run.free_min > latest]
            mine.sort(key=_length, reverse=True)
            giving = set[Key]()
            for run in mine:
                task = known[run.key]
                others = [
                    each
                    for each in placed
                    if each.job not in late
                    and each.key not in giving
                    and _fits(task, each, latest, judge)
                    and spare[each.job] > run.start_min - each.start_min
                ]
                others.sort(key=lambda each: (each.start_min - run.start_min - spare[each.job], each.key))
                if others:
                    giving.add(others[int(rng.integers(min(NEAR_N, len(others)))) if choice else 0].key)
            yield job, giving | {run.key for run in mine}
        for job in () if choice else order:  # a new printer has room for a job whose own plates change their order
            yield job, {run.key for run in placed if run.job == job}


def _length(run: PrintRun) -> tuple[int, Key]:
    """Return how long a run takes."""
    return run.end_min - run.start_min, run.key


def _fits(task: Task, run: PrintRun, latest: int, judge: Judge) -> bool:
    """Return whether a plate could have the place of a run, and be cleared in time there."""
    takes = task.takes_min.get(run.printer)
    if takes is None or takes > run.end_min - run.start_min or run.start_min < task.not_before_min:
        return False
    return run.start_min + takes + judge.shop.change_min[run.printer] <= latest


def _placed_again(
    tasks: Sequence[Task], judge: Judge, placed: Sequence[PrintRun], job: int, loose: set[Key]
) -> tuple[PrintRun, ...]:
    """Return all plates where they are but some, those of a late job at the head of these; empty: no time."""
    where = {run.key: (run.start_min, run.printer) for run in placed}
    now = [replace(task, stood=None if task.key in loose else where[task.key]) for task in tasks]
    return Gaps(judge).placed(now, set(), ahead=job)
