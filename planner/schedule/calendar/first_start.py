"""First start: one line about the first start: by when, or not that day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.phrases import moment
from planner.schedule.calendar.allowed_starts import starts_of
from planner.schedule.calendar.schedule_records import Key, PrintRun, Shop, Task
from planner.schedule.calendar.wall_clock import Wall


def first_start_line(placed: Sequence[PrintRun], tasks: Mapping[Key, Task], shop: Shop, wall: Wall) -> str:
    """Return what to start first and by when; empty where nothing has a time."""
    if not placed:
        return ""
    run = min(placed, key=lambda each: (each.start_min, each.plate))
    start = wall.at(run.start_min)
    starts = starts_of(shop, run.end_min - run.start_min, run.printer, watched=tasks[run.key].watched)
    last = next((b for a, b in starts if a <= run.start_min <= b), run.start_min)
    by = wall.at(last)
    today = start.date() == wall.start.date()
    clock = f"before {by:%H:%M}, or not {'today' if today else 'that day'}"
    limit = "any time" if by.date() > start.date() else clock
    if today:
        return f"plate {run.plate} on {run.printer}: start {limit}"
    when = moment(start)
    return f"nothing starts today; the next is plate {run.plate} on {run.printer}, {when}; start {limit}"
