"""Gate: a run that everything waits for, and the minutes that hands need with what came off the bed."""

from __future__ import annotations

from dataclasses import dataclass

from planner.schedule.calendar.allowed_starts import clears_of, starts_of
from planner.schedule.calendar.task import Shop
from planner.schedule.calendar.weekly_spans import first_from, worked


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate:
    """Minutes from the plan's start: the run from ``start`` to ``end``, ``last_start`` that day, and all done."""

    start: int
    last_start: int
    end: int
    done: int


def gate_of(shop: Shop, printer: str, takes_min: int, hands_min: int, since: int = 0) -> Gate | None:
    """Return the earliest run of a length on a printer from a minute on, then its work; None: not within a year."""
    starts = starts_of(shop, takes_min)
    start = first_from(starts, since)
    if start is None:
        return None
    clear = first_from(clears_of(shop, shop.change_min[printer]), start + takes_min)
    done = None if clear is None else worked(shop.attended, clear + shop.change_min[printer], hands_min)
    if done is None:
        return None
    last = next(b for a, b in starts if a <= start <= b)
    return Gate(start=start, last_start=last, end=start + takes_min, done=done)
