"""Dispatch: plates one after the other, each as early as can be; a first calendar for the solver to beat."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planner.schedule.calendar.allowed_starts import clears_of, starts_of
from planner.schedule.calendar.task import Placed, Shop, Task, finish_of
from planner.schedule.calendar.weekly_spans import Span, first_from

TRIES_N = 300
"""Orders that are tried for a first calendar; a try of 40 plates takes a few milliseconds."""
SPREAD = 0.6
"""How far the length of a plate is bent at random for its place in an order: by up to this share either way."""


def first_calendar(tasks: Sequence[Task], shop: Shop, seed: int) -> tuple[Placed, ...]:
    """Return the best of several dispatched calendars; empty where some plate finds no time."""
    dispatch = Dispatch(shop)
    known = {task.plate: task for task in tasks}
    rng = np.random.default_rng(seed)
    best: tuple[tuple[int, int], tuple[Placed, ...]] | None = None
    for bend in (0.0, *[SPREAD] * (TRIES_N if len(tasks) > 1 else 0)):
        factors = rng.uniform(1.0 - bend, 1.0 + bend, len(tasks))
        placed = dispatch.placed(in_order(tasks, factors.tolist()))
        if not placed:
            continue
        score = finish_of(placed, known), sum(run.end for run in placed)
        if best is None or score < best[0]:
            best = score, placed
    return best[1] if best else ()


class Dispatch:
    """Places tasks in a given order; remembers which starts a length allows."""

    def __init__(self, shop: Shop) -> None:
        self.shop = shop
        self.starts: dict[tuple[int, bool], tuple[Span, ...]] = {}
        self.clears = {change: clears_of(shop, change) for change in shop.change_min.values()}

    def placed(self, tasks: Sequence[Task]) -> tuple[Placed, ...]:
        """Return a calendar in which every plate takes the printer that ends it first; empty where one finds no time.

        Tasks come in an order that ranks and ``after`` allow.
        """
        free = dict.fromkeys(self.shop.change_min, 0)
        busy: list[Span] = []  # of the people
        where: dict[str, str] = {}
        done: dict[int, Placed] = {}
        shared = {
            stay: set.intersection(*(set(task.takes_min) for task in tasks if task.stay == stay))
            for stay in {task.stay for task in tasks if task.stay}
        }
        for task in tasks:
            after = max([task.not_before_min, *(done[plate].free for plate in task.after if plate in done)])
            choices = []
            for printer in task.takes_min:
                if task.stay and printer != where.get(task.stay, printer if printer in shared[task.stay] else None):
                    continue
                one = self._earliest(task, printer, max(free[printer], after), busy)
                if one is not None:
                    choices.append((one.end + task.lost_min.get(printer, 0), printer, one))
            if not choices:
                return ()
            one = min(choices, key=lambda each: each[:2])[2]
            done[task.plate] = one
            free[one.printer] = one.free
            busy.append((one.clear, one.free))
            if task.stay:
                where[task.stay] = one.printer
        return tuple(done.values())

    def _earliest(self, task: Task, printer: str, minute: int, busy: list[Span]) -> Placed | None:
        """Return the earliest run of a task on a printer from a minute on, and the earliest clearing after it."""
        takes, change = task.takes_min[printer], self.shop.change_min[printer]
        if (takes, task.watched) not in self.starts:
            self.starts[takes, task.watched] = starts_of(self.shop, takes, watched=task.watched)
        start = first_from(self.starts[takes, task.watched], minute)
        if start is None:
            return None
        clear = first_from(self.clears[change], start + takes)
        while clear is not None:
            meeting = [b for a, b in busy if a < clear + change and clear < b]
            if len(meeting) < self.shop.people_n:
                free = clear + change
                return Placed(plate=task.plate, printer=printer, start=start, end=start + takes, clear=clear, free=free)
            clear = first_from(self.clears[change], min(meeting))
        return None


def in_order(tasks: Sequence[Task], factors: Sequence[float] | None = None) -> list[Task]:
    """Return tasks by rank, those that others wait for first, longest first within that; ``factors`` bend lengths."""
    bent = factors if factors is not None else [1.0] * len(tasks)
    length = {t.plate: f * min(t.takes_min.values(), default=0) for t, f in zip(tasks, bent, strict=True)}
    known = {task.plate for task in tasks}
    left = sorted(tasks, key=lambda t: (t.rank, -length[t.plate], t.plate))
    found: list[Task] = []
    taken: set[int] = set()
    while left:
        ready = next((t for t in left if all(plate in taken or plate not in known for plate in t.after)), left[0])
        found.append(ready)
        taken.add(ready.plate)
        left.remove(ready)
    return found
