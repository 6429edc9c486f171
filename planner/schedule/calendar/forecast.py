"""Forecast: a first calendar of some plates, and when the device would be ready by it, to weigh ways to part them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from planner.job import Calendar, Printer
from planner.schedule.calendar.timetable import PlateLoad, shop_of, tasks_of
from planner.schedule.calendar.wall_clock import Wall
from planner.schedule.calendar.weekly_spans import HORIZON_MIN
from planner.schedule.hands.hand_steps import Step, placed_steps
from planner.schedule.risk.simulate import Chance, played
from planner.schedule.solver.dispatch import first_calendar
from planner.schedule.solver.solve import SEED, unmet


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """When a device would be ready, by plan and on average over plays with failures; None where never within a year.

    ``unmet_n`` plates have no time at all; ``late_days`` counts from the deadline, 0 without one.
    """

    ready: datetime | None
    expected: datetime | None
    late_days: int
    unmet_n: int


def forecast(
    loads: Sequence[PlateLoad], calendar: Calendar, printers: Sequence[Printer], steps: Sequence[Step]
) -> Forecast:
    """Return the forecast of plates that are dispatched, not solved: many ways are weighed by it, one is solved.

    Raises
    ------
    ValueError
        Where the calendar has no start.
    """
    wall = Wall.of(calendar)
    shop, tasks = shop_of(calendar, printers), tasks_of(loads, calendar, printers)
    left_n = len(unmet(tasks, shop))
    placed = () if left_n else first_calendar(tasks, shop, SEED)
    if not placed:
        return Forecast(ready=None, expected=None, late_days=0, unmet_n=left_n or len(tasks))
    ratio = loads[0].ratio
    chances = {p.name: Chance(per_hour=p.failure_per_hour.value, ratio=ratio) for p in printers}
    play = played(placed, {task.plate: task for task in tasks}, shop, chances, SEED)

    def ready(minute: int) -> datetime | None:
        runs = placed_steps(steps, shop.attended, min(minute, HORIZON_MIN))
        if runs is None:
            return None
        return wall.at(runs[-1].end if runs else minute)

    by_plan = ready(max(run.free for run in placed))
    late = (by_plan.date() - calendar.deadline).days if by_plan and calendar.deadline else 0
    return Forecast(ready=by_plan, expected=ready(round(play.expected)), late_days=max(0, late), unmet_n=0)
