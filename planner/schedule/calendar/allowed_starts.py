"""Allowed: at which minutes a plate may start on a printer, and a bed may be cleared."""

from __future__ import annotations

from planner.schedule.calendar.schedule_records import Shop, Task
from planner.schedule.calendar.weekly_spans import HORIZON_MIN, Span, starts_clear, starts_within, without


def starts_of(shop: Shop, takes_min: int, printer: str, *, watched: bool = False) -> tuple[Span, ...]:
    """Return the minutes, both ends included, at which a plate of a length may start; ``watched``: inside one span."""
    starts = starts_within(shop.there(printer), 1 if shop.unattended and not watched else takes_min)
    return starts_clear(starts, shop.quiet, takes_min)


def windows_of(task: Task, printer: str, shop: Shop, limit_min: int | None = None) -> list[Span]:
    """Return the minutes, both ends included, at which a task may start on a printer.

    With a limit it ends by then, with what failures are expected to cost. Its job's begin, and the minute by which its
    bed has to be cleared, are kept.
    """
    takes_min, most_min = task.takes_min[printer], HORIZON_MIN
    least_min = max(task.not_before_min, shop.free_from_min.get(printer, 0))
    if limit_min is not None:
        most_min = limit_min - takes_min - task.lost_min.get(printer, 0)
    if task.cleared_by_min is not None:
        most_min = min(most_min, task.cleared_by_min - shop.change_min[printer] - takes_min)
    starts = starts_of(shop, takes_min, printer, watched=task.watched)
    return [(max(a, least_min), min(b, most_min)) for a, b in starts if max(a, least_min) <= min(b, most_min)]


def clears_of(shop: Shop, printer: str) -> tuple[Span, ...]:
    """Return the minutes, both ends included, at which clearing a printer's bed may begin."""
    return starts_within(shop.there(printer), shop.change_min[printer])


def longest_run_min(shop: Shop) -> int:
    """Return the longest time that a plate may run in one go; the whole horizon where nothing limits it."""
    open_ = ((0, HORIZON_MIN),) if shop.unattended else shop.attended
    return max((b - a for a, b in without(open_, shop.quiet)), default=0)
