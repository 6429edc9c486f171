"""What a job asks of a schedule beside its plates, and how good a calendar is by that."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal, get_args

from planner.schedule.calendar.allowed_starts import starts_of
from planner.schedule.calendar.ready_pieces import ReadyPiece, ready_min_of, ready_pieces
from planner.schedule.calendar.schedule_records import Key, PrintRun, Shop, Task, finish_of, on_one_printer
from planner.schedule.calendar.wall_clock import Wall
from planner.schedule.calendar.weekly_spans import HORIZON_MIN, Span
from planner.schedule.hands.hand_steps import Step

Aim = Literal["late", "ready", "finish", "ends"]
"""What a person wants of a calendar, what counts most first: few days late of all jobs together; devices ready early,
by the weighted sum of their minutes; printers free early, by the last end with failures; early ends of all plates."""
AIMS: tuple[Aim, ...] = get_args(Aim)
"""The one order of aims: calendars are ranked by it, and every engine searches by it."""
Score = tuple[int, ...]
"""A calendar's worth by each of ``AIMS``; the smaller, the better."""
READY_WEIGHT = 100
"""Of the job that is due last; each job due before it weighs 1 more, so that it goes first if all else is equal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScheduleTerms:
    """What one job asks for.

    ``steps`` are the hands' work after its last plate. ``deadline`` is a day on the ``wall`` clock; without both
    nothing is late. ``first_article``: the first of its plates is cleared before any other of them starts.
    """

    steps: tuple[Step, ...] = ()
    deadline: date | None = None
    wall: Wall | None = None
    first_article: bool = False


class Judge:
    """Says how good calendars are by the terms of all jobs; remembers what it worked out."""

    def __init__(self, terms: Sequence[ScheduleTerms], shop: Shop) -> None:
        self.terms, self.shop = tuple(terms), shop
        self._ready: dict[tuple[int, int], int] = {}
        self._starts: dict[tuple[int, bool, tuple[Span, ...]], tuple[Span, ...]] = {}
        self._late: dict[tuple[int, int], int] = {}
        self._latest: dict[tuple[int, int], int | None] = {}
        due = sorted(range(len(self.terms)), key=lambda job: (self.terms[job].deadline or date.max, job))
        self._weights = {job: READY_WEIGHT + len(due) - 1 - place for place, job in enumerate(due)}

    def terms_of(self, job: int) -> ScheduleTerms:
        """Return the terms of a job; one that has none asks for nothing."""
        return self.terms[job] if job < len(self.terms) else ScheduleTerms()

    def starts(self, takes_min: int, printer: str, *, watched: bool) -> tuple[Span, ...]:
        """Return the minutes, both ends included, at which a plate of a length may start on a printer."""
        key = takes_min, watched, self.shop.hours.get(printer, ())
        if key not in self._starts:
            self._starts[key] = starts_of(self.shop, takes_min, printer, watched=watched)
        return self._starts[key]

    def weight(self, job: int) -> int:
        """Return how much it counts that a job is ready early."""
        return self._weights.get(job, READY_WEIGHT)

    def ready_min(self, job: int, free_min: int) -> int:
        """Return when a device is ready whose last bed is cleared at a minute; beyond the horizon where never."""
        if (job, free_min) not in self._ready:
            self._ready[job, free_min] = ready_min_of(self.terms_of(job).steps, self.shop.attended, free_min)
        return self._ready[job, free_min]

    def ready_pieces(self, job: int, high_min: int) -> list[ReadyPiece]:
        """Return by when its last bed is cleared, up to a minute, when a device is ready."""
        return ready_pieces(self.terms_of(job).steps, self.shop.attended, 0, high_min)

    def late_days(self, job: int, free_min: int) -> int:
        """Return how many days late a job is whose last bed is cleared at a minute."""
        terms, key = self.terms_of(job), (job, free_min)
        if terms.deadline is None or terms.wall is None:
            return 0
        if key not in self._late:
            ready = terms.wall.at(self.ready_min(job, free_min)).date()
            self._late[key] = max(0, (ready - terms.deadline).days)
        return self._late[key]

    def latest_free_min(self, job: int, days: int) -> int | None:
        """Return the last minute at which a job's last bed may be cleared to be so many days late; None: any minute."""
        if (job, days) not in self._latest:
            self._latest[job, days] = self._latest_by_halves(job, days)
        return self._latest[job, days]

    def _latest_by_halves(self, job: int, days: int) -> int | None:
        """Return what ``latest_free_min`` does, found by halving."""
        low, high = -1, HORIZON_MIN
        if self.late_days(job, high) <= days:
            return None
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if self.late_days(job, middle) <= days else (low, middle)
        return low

    def by_job(self, placed: Sequence[PrintRun]) -> dict[int, int]:
        """Return by job the days that a calendar is late."""
        return {job: self.late_days(job, free_min) for job, free_min in last_free_min(placed).items()}

    def score(self, placed: Sequence[PrintRun], known: Mapping[Key, Task]) -> Score:
        """Return what calendars are compared by, in the order of ``AIMS``: the smaller, the better."""
        worth = self.worth(placed, known)
        return tuple(worth[aim] for aim in AIMS)

    def worth(self, placed: Sequence[PrintRun], known: Mapping[Key, Task]) -> dict[Aim, int]:
        """Return a calendar's worth by every aim: days, weighted minutes, minutes, minutes."""
        free = last_free_min(placed)
        return {
            "late": sum(self.late_days(job, free_min) for job, free_min in free.items()),
            "ready": sum(self.weight(job) * self.ready_min(job, free_min) for job, free_min in free.items()),
            "finish": finish_of(placed, known),
            "ends": sum(run.end_min for run in placed),
        }


def last_free_min(placed: Sequence[PrintRun]) -> dict[int, int]:
    """Return by job when its last bed is cleared."""
    free: dict[int, int] = {}
    for run in placed:
        free[run.job] = max(free.get(run.job, 0), run.free_min)
    return free


def with_first_articles(tasks: Sequence[Task], judge: Judge, best: Sequence[PrintRun]) -> list[Task]:
    """Return tasks that wait for the first article of their job as a calendar has it; of few plates it stays open."""
    firsts: dict[int, int] = {}
    for run in sorted(best, key=lambda run: (run.start_min, run.key)):
        mine = [task for task in tasks if task.job == run.job]
        if judge.terms_of(run.job).first_article and not on_one_printer(mine):
            firsts.setdefault(run.job, run.plate)
    return [
        replace(t, after=tuple(sorted({*t.after, firsts[t.job]})))
        if t.job in firsts and firsts[t.job] != t.plate
        else t
        for t in tasks
    ]
