"""One line about the first start: by when today, or when else."""

from __future__ import annotations

from datetime import datetime

from planner.schedule.calendar.first_start import first_start_line
from planner.schedule.calendar.schedule_records import PrintRun, Shop, Task
from planner.schedule.calendar.wall_clock import Wall

WALL = Wall(start=datetime(2026, 11, 30, 18, 0))
TASKS = {(0, 2): Task(plate=2, takes_min={"a": 60})}


def _run(start_min: int) -> PrintRun:
    """Return an hour of plate 2 that starts at a minute."""
    end_min = start_min + 60
    return PrintRun(
        plate=2, printer="a", start_min=start_min, end_min=end_min, clear_min=end_min, free_min=end_min + 10
    )


def test_a_start_today_has_its_latest_minute() -> None:
    """Somebody is there from 18:00 to 21:00 and the plate must be watched: an hour starts by 20:00, or not today."""
    shop = Shop(change_min={"a": 10}, attended=((0, 180),))

    assert first_start_line([_run(0)], TASKS, shop, WALL) == "plate 2 on a: start before 20:00, or not today"


def test_where_nothing_starts_today_the_next_start_is_told() -> None:
    """The first plate starts a day later: that is said, with its day."""
    shop = Shop(change_min={"a": 10}, attended=((24 * 60, 24 * 60 + 180),))
    line = first_start_line([_run(24 * 60)], TASKS, shop, WALL)

    assert line.startswith("nothing starts today; the next is plate 2 on a, Tue 1 Dec")
    assert line.endswith("start before 20:00, or not that day")


def test_nothing_is_said_where_nothing_has_a_time() -> None:
    """An empty calendar has no line."""
    assert first_start_line([], {}, Shop(change_min={}, attended=()), WALL) == ""
