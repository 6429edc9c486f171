"""Tonight: one line about the first start: by when, or not that day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.schedule.calendar.allowed_starts import starts_of
from planner.schedule.calendar.task import Placed, Shop, Task
from planner.schedule.calendar.wall_clock import Wall


def tonight(placed: Sequence[Placed], tasks: Mapping[int, Task], shop: Shop, wall: Wall) -> str:
    """Return what to start first and by when; empty where nothing has a time."""
    if not placed:
        return ""
    run = min(placed, key=lambda each: (each.start, each.plate))
    start = wall.at(run.start)
    starts = starts_of(shop, run.end - run.start, watched=tasks[run.plate].watched)
    last = next((b for a, b in starts if a <= run.start <= b), run.start)
    by = wall.at(last)
    today = start.date() == wall.start.date()
    clock = f"before {by:%H:%M}, or not {'today' if today else 'that day'}"
    limit = "any time" if by.date() > start.date() else clock
    if today:
        return f"plate {run.plate} on {run.printer}: start {limit}"
    when = f"{start:%a %d %b %H:%M}"
    return f"nothing starts today: the next is plate {run.plate} on {run.printer}, {when}; start {limit}"
