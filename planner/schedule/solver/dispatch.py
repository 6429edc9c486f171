"""Dispatch: plates one after the other, each as early as can be; a first calendar for the solver to beat.

Orders are tried that put long plates first, and, of several jobs, the job that is due first (on one printer that is
best for the latest job: Jackson 1955, from memory; Pinedo, Scheduling, theorem on 1||Lmax, from memory).
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator, Sequence
from datetime import date
from itertools import islice

import numpy as np

from planner.schedule.calendar.allowed_starts import clears_of
from planner.schedule.calendar.schedule_records import Key, PrintRun, Task, by_key
from planner.schedule.calendar.schedule_terms import Judge, Score
from planner.schedule.calendar.weekly_spans import Span, first_from

TRIES_N = 300
"""Orders that are tried for a first calendar; a try of 40 plates takes a few milliseconds."""
MOVES_N = 150
"""Of several jobs: moves of one plate in the best order."""
SPREAD = 0.6
"""How far the length of a plate is bent at random for its place in an order: by up to this share either way."""
FIRSTS_N = 4
"""So many of a job's shortest plates are tried as its first article."""


def first_calendar(tasks: Sequence[Task], judge: Judge, seed: int, *, tries_n: int = TRIES_N) -> tuple[PrintRun, ...]:
    """Return the best of several dispatched calendars; empty where some plate finds no time.

    ``tries_n`` orders are tried, fewer where many ways are weighed, and moves in proportion.
    """
    dispatch, known = Dispatch(judge), by_key(tasks)
    rng = np.random.default_rng(seed)
    best: tuple[Score, tuple[PrintRun, ...]] | None = None
    kept: list[Task] = []

    def tried(order: list[Task]) -> None:
        nonlocal best, kept
        placed = dispatch.placed(order)
        score = judge.score(placed, known) if placed else None
        if score is not None and (best is None or score < best[0]):
            best, kept = (score, placed), order

    for order in islice(_orders(tasks, judge, rng), tries_n + 1):
        tried(order)
    if best is not None and len({task.job for task in tasks}) > 1:
        for _ in range(MOVES_N * tries_n // TRIES_N):
            order = list(kept)
            order.insert(int(rng.integers(len(order))), order.pop(int(rng.integers(len(order)))))
            tried(waits_kept(order))
    return best[1] if best else ()


def _orders(tasks: Sequence[Task], judge: Judge, rng: np.random.Generator) -> Iterator[list[Task]]:
    """Yield the tasks in many orders: as they are best for the last end, by due date, and by lot between these."""
    jobs = sorted({task.job for task in tasks})
    due = sorted(jobs, key=lambda job: (judge.terms_of(job).deadline or date.max, job))
    place = {job: number for number, job in enumerate(due)}
    longest = max((task.shortest_min for task in tasks), default=1) or 1
    for number in range(1 + (TRIES_N if len(tasks) > 1 else 0)):
        bend = SPREAD if number else 0.0
        bent = rng.uniform(1.0 - bend, 1.0 + bend, len(tasks))
        # of several jobs: all plates alike, job after job, and between; a job's place is bent too
        pull = (0.0, 2.0, float(rng.uniform(0.0, 1.0)))[number % 3] if len(jobs) > 1 else 0.0
        lot = {job: place[job] + float(rng.normal(0.0, 0.4 * bend * len(jobs))) for job in jobs} if pull else place
        worth = {t.key: pull * lot[t.job] - f * t.shortest_min / longest for t, f in zip(tasks, bent, strict=True)}
        order = sorted(tasks, key=lambda t: (worth[t.key], t.rank, t.key))
        yield waits_kept(_with_firsts(order, judge, number))


def _with_firsts(order: list[Task], judge: Judge, number: int) -> list[Task]:
    """Return the order with a short plate at the head of each job that has a first article; which one, goes round."""
    for job in sorted({task.job for task in order}):
        mine = [task for task in order if task.job == job]
        if judge.terms_of(job).first_article and len(mine) > 1:
            short = sorted(mine, key=lambda t: (t.shortest_min, t.rank, t.plate))[:FIRSTS_N]
            first = short[number % len(short)]
            order.remove(first)
            order.insert(order.index(next(task for task in order if task.job == job)), first)
    return order


class Dispatch:
    """Places tasks in a given order."""

    def __init__(self, judge: Judge) -> None:
        self.judge, self.shop = judge, judge.shop
        self.longest_min = max(self.shop.change_min.values(), default=0)
        self.clears = {printer: clears_of(self.shop, printer) for printer in self.shop.change_min}

    def placed(self, tasks: Sequence[Task]) -> tuple[PrintRun, ...]:
        """Return a calendar in which every plate takes the printer that ends it first; empty where one finds no time.

        Tasks come in an order that ``after`` allows; the first of a job is its first article where it has one.
        """
        free = dict.fromkeys(self.shop.change_min, 0)
        busy: list[Span] = sorted(self.shop.cleared)  # of the people
        feeding: dict[str, list[Span]] = {}
        where: dict[tuple[int, str], str] = {}
        gates: dict[int, int] = {}
        done: dict[Key, PrintRun] = {}
        for task in tasks:
            waits = [done[key].free_min for key in task.after_keys if key in done]
            after = max([task.not_before_min, gates.get(task.job, 0), *waits])
            choices = []
            for printer in self._printers(task, tasks, where):
                one = self._earliest(task, printer, max(free[printer], after), busy, feeding)
                if one is not None:
                    choices.append((one.end_min + task.lost_min.get(printer, 0), printer, one))
            if not choices:
                return ()
            one = min(choices, key=lambda each: each[:2])[2]
            done[task.key] = one
            free[one.printer] = one.free_min
            insort(busy, (one.clear_min, one.free_min))
            if task.reel:
                feeding.setdefault(task.reel, []).append((one.start_min, one.end_min))
            if task.stay:
                where[task.job, task.stay] = one.printer
            if self.judge.terms_of(task.job).first_article:
                gates.setdefault(task.job, one.free_min)
        return tuple(done.values())

    def _printers(self, task: Task, tasks: Sequence[Task], where: dict[tuple[int, str], str]) -> list[str]:
        """Return the printers that a plate may go to: with those that it stays with, one that takes them all."""
        if not task.stay:
            return list(task.takes_min)
        if (task.job, task.stay) in where:
            return [printer for printer in task.takes_min if printer == where[task.job, task.stay]]
        all_of = [other for other in tasks if (other.job, other.stay) == (task.job, task.stay)]
        return [printer for printer in task.takes_min if all(printer in other.takes_min for other in all_of)]

    def _earliest(
        self, task: Task, printer: str, minute: int, busy: list[Span], feeding: dict[str, list[Span]]
    ) -> PrintRun | None:
        """Return the earliest run of a task on a printer from a minute on, and the earliest clearing after it."""
        takes, change = task.takes_min[printer], self.shop.change_min[printer]
        minute = max(minute, self.shop.free_from_min.get(printer, 0))
        starts = self.judge.starts(takes, printer, watched=task.watched)
        start = first_from(starts, minute)
        while start is not None and task.reel:
            meeting = [b for a, b in feeding.get(task.reel, ()) if a < start + takes and start < b]
            if len(meeting) < self.shop.reels_n[task.reel]:
                break
            start = first_from(starts, min(meeting))
        if start is None:
            return None
        clear = first_from(self.clears[printer], start + takes)
        while clear is not None:
            near = busy[bisect_left(busy, (clear - self.longest_min, 0)) : bisect_left(busy, (clear + change, 0))]
            meeting = [b for _, b in near if clear < b]
            if len(meeting) < self.shop.people_n:
                return PrintRun(
                    job=task.job,
                    plate=task.plate,
                    printer=printer,
                    start_min=start,
                    end_min=start + takes,
                    clear_min=clear,
                    free_min=clear + change,
                )
            clear = first_from(self.clears[printer], min(meeting))
        return None


def waits_kept(tasks: Sequence[Task]) -> list[Task]:
    """Return tasks in their order, each after those that it waits for."""
    if not any(task.after for task in tasks):
        return list(tasks)
    known = {task.key for task in tasks}
    left, found = list(tasks), list[Task]()
    taken: set[Key] = set()
    while left:
        ready = next((t for t in left if all(key in taken or key not in known for key in t.after_keys)), left[0])
        found.append(ready)
        taken.add(ready.key)
        left.remove(ready)
    return found


def in_order(tasks: Sequence[Task]) -> list[Task]:
    """Return tasks with those that others wait for first, the longest first within that."""
    return waits_kept(sorted(tasks, key=lambda t: (-t.shortest_min, t.rank, t.key)))
