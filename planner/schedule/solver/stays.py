"""Stays: a calendar in which plates stay where the last plan had them, and only what has to move does."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from planner.schedule.calendar.allowed_starts import clears_of, starts_of, windows_of
from planner.schedule.calendar.schedule_records import Key, PrintRun, Task
from planner.schedule.calendar.schedule_terms import Judge
from planner.schedule.calendar.weekly_spans import Span, first_from
from planner.schedule.solver.calendar_proof import proved
from planner.schedule.solver.dispatch import waits_kept


def as_it_stood(tasks: Sequence[Task], judge: Judge) -> tuple[PrintRun, ...]:
    """Return a calendar that moves only plates that have to move; empty where none is found.

    A job whose own rules that would break, such as a first plate that has to be printed again, is placed anew as a
    whole, into the gaps that the others leave.
    """
    if not any(task.stood for task in tasks):
        return ()
    loose: set[int] = set()
    while True:
        placed = Gaps(judge).placed(tasks, loose)
        if not placed:
            return ()
        broken = {job for job in {task.job for task in tasks} if _breaks(job, placed, tasks, judge)} - loose
        if not broken:
            return () if proved(placed, tasks, judge.shop, judge.terms) else placed
        loose |= broken


def _breaks(job: int, placed: Sequence[PrintRun], tasks: Sequence[Task], judge: Judge) -> bool:
    """Return whether a job's runs break its own rules."""
    mine = [run for run in placed if run.job == job]
    return bool(proved(mine, [task for task in tasks if task.job == job], judge.shop, judge.terms))


class Gaps:
    """Puts plates into what is free on printers, between others that stay."""

    def __init__(self, judge: Judge) -> None:
        self.judge, self.shop = judge, judge.shop
        self.busy: dict[str, list[Span]] = {printer: [] for printer in self.shop.change_min}
        self.hands: list[Span] = list(self.shop.cleared)
        self.feeding: dict[str, list[Span]] = {}
        self.done: dict[Key, PrintRun] = {}

    def placed(self, tasks: Sequence[Task], loose: set[int]) -> tuple[PrintRun, ...]:
        """Return all tasks, those of loose jobs and those that cannot stay anew; empty where one finds no time."""
        staying = [task for task in tasks if task.stood and task.job not in loose]
        for task in sorted(staying, key=lambda each: (each.stood, each.key)):
            self._stay(task)
        left = [task for task in tasks if task.key not in self.done]
        left.sort(key=lambda t: (self.judge.terms_of(t.job).deadline or date.max, t.job, -t.shortest_min, t.key))
        for task in waits_kept(left):
            choices = [run for p in self._printers(task) if (run := self.earliest(task, p, self._after(task)))]
            if not choices:
                return ()
            self._take(
                task, min(choices, key=lambda run: (run.end_min + task.lost_min.get(run.printer, 0), run.printer))
            )
        return tuple(self.done[task.key] for task in tasks)

    def _stay(self, task: Task) -> None:
        """Leave a task where it stood, if that still holds."""
        assert task.stood is not None
        start, printer = task.stood
        if printer not in task.takes_min or not any(a <= start <= b for a, b in windows_of(task, printer, self.shop)):
            return
        run = self.earliest(task, printer, start)
        if run is not None and run.start_min == start:
            self._take(task, run)

    def _take(self, task: Task, run: PrintRun) -> None:
        """Note a run."""
        self.done[task.key] = run
        self.busy[run.printer].append((run.start_min, run.free_min))
        self.hands.append((run.clear_min, run.free_min))
        if task.reel:
            self.feeding.setdefault(task.reel, []).append((run.start_min, run.end_min))

    def _after(self, task: Task) -> int:
        """Return the minute before which a task may not start: what it waits for, its job's first plate."""
        waits = [self.done[key].free_min for key in task.after_keys if key in self.done]
        if self.judge.terms_of(task.job).first_article:
            mine = [run for run in self.done.values() if run.job == task.job]
            waits += [min(mine, key=lambda run: (run.start_min, run.plate)).free_min] if mine else []
        return max([task.not_before_min, *waits])

    def _printers(self, task: Task) -> list[str]:
        """Return the printers that a task may go to: where its mates are."""
        mates = {run.printer for key, run in self.done.items() if key[0] == task.job} if task.stay else set()
        same = [printer for printer in task.takes_min if printer in mates]
        return same if len(mates) == 1 and same else list(task.takes_min)

    def earliest(self, task: Task, printer: str, minute: int) -> PrintRun | None:
        """Return the earliest run of a task on a printer from a minute on that meets no other."""
        takes, change = task.takes_min[printer], self.shop.change_min[printer]
        starts, clears = starts_of(self.shop, takes, printer, watched=task.watched), clears_of(self.shop, printer)
        minute = max(minute, self.shop.free_from_min.get(printer, 0))
        while (start := first_from(starts, minute)) is not None:
            clear = self._clear(clears, start + takes, change)
            if clear is None:
                return None
            meeting = [b for a, b in self.busy[printer] if a < clear + change and start < b]
            if not meeting:
                minute = self._fed_from(task, start, takes)
                if minute == start:
                    return _run(task, printer, start, clear, change)
                continue
            minute = max(meeting)
        return None

    def _clear(self, clears: Sequence[Span], minute: int, change: int) -> int | None:
        """Return the earliest minute at which somebody has the time to clear a bed."""
        clear = first_from(clears, minute)
        while clear is not None:
            meeting = [b for a, b in self.hands if a < clear + change and clear < b]
            if len(meeting) < self.shop.people_n:
                return clear
            clear = first_from(clears, min(meeting))
        return None

    def _fed_from(self, task: Task, start: int, takes: int) -> int:
        """Return the earliest minute, from a start on, at which a spool of the task's colour may be free."""
        if not task.reel:
            return start
        meeting = [b for a, b in self.feeding.get(task.reel, ()) if a < start + takes and start < b]
        return start if len(meeting) < self.shop.reels_n[task.reel] else min(meeting)


def _run(task: Task, printer: str, start: int, clear: int, change: int) -> PrintRun:
    """Return a run of a task."""
    return PrintRun(
        job=task.job,
        plate=task.plate,
        printer=printer,
        start_min=start,
        end_min=start + task.takes_min[printer],
        clear_min=clear,
        free_min=clear + change,
    )
