"""A run that everything waits for (a coupon), and the minutes that hands need with what came off the bed."""

from __future__ import annotations

from dataclasses import dataclass

from planner.schedule.calendar.allowed_starts import clears_of, starts_of
from planner.schedule.calendar.schedule_records import Shop
from planner.schedule.calendar.weekly_spans import first_from, worked


@dataclass(frozen=True, slots=True, kw_only=True)
class CouponGate:
    """A run in minutes from the plan's start, the latest start that day, the bed cleared, and all work done."""

    start_min: int
    last_start_min: int
    end_min: int
    free_min: int
    done_min: int


def coupon_gate(shop: Shop, printer: str, takes_min: int, hands_min: int, since_min: int = 0) -> CouponGate | None:
    """Return the earliest run of a length on a printer from a minute on, then its work; None: not within a year."""
    starts = starts_of(shop, takes_min, printer)
    start = first_from(starts, since_min)
    if start is None:
        return None
    clear = first_from(clears_of(shop, printer), start + takes_min)
    if clear is None:
        return None
    free = clear + shop.change_min[printer]
    done = worked(shop.attended, free, hands_min)
    if done is None:
        return None
    last = next(b for a, b in starts if a <= start <= b)
    return CouponGate(start_min=start, last_start_min=last, end_min=start + takes_min, free_min=free, done_min=done)
