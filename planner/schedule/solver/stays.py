"""Stays: a calendar in which plates stay where the last plan had them, and only what has to move does."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from planner.schedule.calendar.allowed_starts import clears_of
from planner.schedule.calendar.schedule_records import Key, PrintRun, Task
from planner.schedule.calendar.schedule_terms import Judge
from planner.schedule.calendar.weekly_spans import Span, first_from
from planner.schedule.solver.calendar_proof import proved
from planner.schedule.solver.dispatch import Dispatch, waits_kept

LAST_MIN = 10**9
"""Later than any calendar."""


def as_it_stood(tasks: Sequence[Task], judge: Judge) -> tuple[PrintRun, ...]:
    """Return a calendar that moves only plates that have to move; empty where none is found.

    A job whose own rules that would break, such as a first plate that has to be printed again, is placed again as a
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


def in_last_order(tasks: Sequence[Task], judge: Judge) -> tuple[PrintRun, ...]:
    """Return a calendar of the plates in the order in which the last plan starts them; empty where none holds.

    What is new comes before those that are due later. Where much has to give way, shifting all by some hours makes
    fewer devices late than leaving all but a few where they are.
    """
    due = {job: judge.terms_of(job).deadline or date.max for job in {task.job for task in tasks}}
    order = sorted((task for task in tasks if task.stood), key=lambda task: (task.stood, task.key))
    for task in sorted((t for t in tasks if not t.stood), key=lambda t: (due[t.job], t.job, -t.shortest_min, t.key)):
        later = (place for place, other in enumerate(order) if due[other.job] > due[task.job])
        order.insert(next(later, len(order)), task)
    placed = Dispatch(judge).placed(waits_kept(order))
    return () if proved(placed, tasks, judge.shop, judge.terms) else placed


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
        self.feeding: dict[str, dict[Key, Span]] = {}
        self.done: dict[Key, PrintRun] = {}
        self.clears = {printer: clears_of(self.shop, printer) for printer in self.shop.change_min}

    def placed(self, tasks: Sequence[Task], loose: set[int], ahead: int | None = None) -> tuple[PrintRun, ...]:
        """Return all tasks, those of loose jobs and those that cannot stay anew; empty where one finds no time.

        Of those that get another place the job that is due first goes first, or one that is to be ``ahead`` of all.
        """
        staying = [task for task in tasks if task.stood and task.job not in loose]
        self._stay(staying)
        left = [task for task in tasks if task.key not in self.done]
        left.sort(
            key=lambda t: (
                t.job != ahead,
                self.judge.terms_of(t.job).deadline or date.max,
                t.job,
                -t.shortest_min,
                t.key,
            )
        )
        for task in waits_kept(left):
            choices = [run for p in self._printers(task) if (run := self.earliest(task, p, self._after(task)))]
            if not choices:
                return ()
            self._take(
                task, min(choices, key=lambda run: (run.end_min + task.lost_min.get(run.printer, 0), run.printer))
            )
        return tuple(self.done[task.key] for task in tasks)

    def _stay(self, tasks: Sequence[Task]) -> None:
        """Leave tasks where they stood, if that still holds.

        Beds are cleared in the order in which the next plates need them: in the order of starts the hands would come
        too late to some, and plates would move that nothing has happened to.
        """
        lines: dict[str, list[Task]] = {}
        for task in sorted(tasks, key=lambda each: (each.stood, each.key)):
            start, printer = _stood(task)
            line = lines.setdefault(printer, [])
            free = not line or _stood(line[-1])[0] + line[-1].takes_min[printer] <= start
            if free and self._may_start(task, start, printer):
                line.append(task)
                if task.reel:
                    self.feeding.setdefault(task.reel, {})[task.key] = start, start + task.takes_min[printer]
        waiting = []
        for printer, line in lines.items():
            for place, task in enumerate(line):
                end = _stood(task)[0] + task.takes_min[printer]
                due = _stood(line[place + 1])[0] - self.shop.change_min[printer] if place + 1 < len(line) else LAST_MIN
                waiting.append((due, end, printer, task))
        for _, _, printer, task in sorted(waiting, key=lambda row: (*row[:3], row[3].key)):
            start, takes, change = _stood(task)[0], task.takes_min[printer], self.shop.change_min[printer]
            clear = self._clear(self.clears[printer], start + takes, change)
            before = [b for a, b in self.busy[printer] if a <= start < b]
            if clear is not None and not before:
                self._take(task, _run(task, printer, start, clear, change))
            elif task.reel:
                del self.feeding[task.reel][task.key]

    def _may_start(self, task: Task, start: int, printer: str) -> bool:
        """Return whether a task may start at a minute on a printer, for all but other plates on it and hands."""
        if printer not in task.takes_min:
            return False
        takes, latest = task.takes_min[printer], LAST_MIN
        if task.cleared_by_min is not None:
            latest = task.cleared_by_min - self.shop.change_min[printer] - takes
        if not max(task.not_before_min, self.shop.free_from_min.get(printer, 0)) <= start <= latest:
            return False
        if first_from(self.judge.starts(takes, printer, watched=task.watched), start) != start:
            return False
        return self._fed_from(task, start, takes) == start

    def _take(self, task: Task, run: PrintRun) -> None:
        """Note a run."""
        self.done[task.key] = run
        self.busy[run.printer].append((run.start_min, run.free_min))
        self.hands.append((run.clear_min, run.free_min))
        if task.reel:
            self.feeding.setdefault(task.reel, {})[task.key] = run.start_min, run.end_min

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
        clears, starts = self.clears[printer], self.judge.starts(takes, printer, watched=task.watched)
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
        others = self.feeding.get(task.reel, {})
        meeting = [b for key, (a, b) in others.items() if key != task.key and a < start + takes and start < b]
        return start if len(meeting) < self.shop.reels_n[task.reel] else min(meeting)


def _stood(task: Task) -> tuple[int, str]:
    """Return where the last plan has a task: its start and its printer."""
    assert task.stood is not None
    return task.stood


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
