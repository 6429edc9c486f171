"""Allowed: at which minutes a plate may start on a printer, and a bed may be cleared."""

from __future__ import annotations

from planner.schedule.calendar.task import Shop
from planner.schedule.calendar.weekly_spans import HORIZON_MIN, Span, starts_clear, starts_within, without


def starts_of(shop: Shop, takes_min: int, *, watched: bool = False) -> tuple[Span, ...]:
    """Return the minutes, both ends meant, at which a plate of a length may start; ``watched``: inside one span."""
    starts = starts_within(shop.attended, 1 if shop.unattended and not watched else takes_min)
    return starts_clear(starts, shop.quiet, takes_min)


def clears_of(shop: Shop, change_min: int) -> tuple[Span, ...]:
    """Return the minutes, both ends meant, at which clearing a bed may begin."""
    return starts_within(shop.attended, change_min)


def longest_run_min(shop: Shop) -> int:
    """Return the longest time that a plate may run in one go; the whole horizon where nothing limits it."""
    open_ = ((0, HORIZON_MIN),) if shop.unattended else shop.attended
    return max((b - a for a, b in without(open_, shop.quiet)), default=0)
