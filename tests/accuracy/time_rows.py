"""Time: plates that may fail, plates on printers, and the clock on the wall."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import datetime

from planner.job import Attended
from planner.schedule import Hazard, Marks, expected_s, risk_of
from planner.schedule.calendar.schedule_records import Shop, Task
from planner.schedule.calendar.schedule_terms import Judge, ScheduleTerms
from planner.schedule.calendar.wall_clock import Wall
from planner.schedule.calendar.weekly_spans import spans_of
from planner.schedule.solver.dispatch import Dispatch, first_calendar, in_order
from tests.accuracy.row import Row

HOUR = 3600.0
NIGHT = Attended(days=(5,), from_min=1320, to_min=1440), Attended(days=(6,), from_min=0, to_min=420)
SHOP = Shop(change_min={"a": 1, "b": 1}, attended=((0, 100_000),), people_n=2)


def _end(*, best: bool) -> float:
    """Return when the last of Graham's plates ends, less its two changes, in hundreds of minutes."""
    tasks = [Task(plate=n, takes_min=dict.fromkeys("ab", 100 * m)) for n, m in enumerate((3, 3, 2, 2, 2), 1)]
    judge = Judge([ScheduleTerms()], SHOP)
    runs = first_calendar(tasks, judge, 1) if best else Dispatch(judge).placed(in_order(tasks))
    return (max(run.end_min for run in runs) - 2) / 100


def _going_on(hours: float, rate: float) -> float:
    """Return the hours of a plate that goes on from hourly marks after every failure, 15 minutes each."""
    marks = Marks(share=1.0, mark_s=HOUR, resume_s=900.0)
    return (
        risk_of(hours * HOUR, None, Hazard(per_hour=rate, change_s=900.0, heat_up_s=0.0, goes_on=marks)).expected_s
        / HOUR
    )


def _night(day: int) -> float:
    """Return the hours from Saturday 22:00 to Sunday 07:00 in Berlin, March 2027."""
    low, high = spans_of(NIGHT, datetime(2027, 3, day, 12, 0), "Europe/Berlin")[0]
    return (high - low) / 60


def time_rows() -> Iterator[Row]:
    """Yield restarts, marks, dispatch and summer time."""
    for hours, rate in ((5.0, 0.03), (20.0, 0.03), (8.0, 0.01), (12.0, 0.1)):
        yield Row(
            source="young",
            what=f"{hours:g} h at {rate:g} failures an hour",
            expected=math.expm1(rate * hours) / rate,
            unit="h",
            within=1e-9,
            ours=lambda hours=hours, rate=rate: expected_s(hours * HOUR, rate) / HOUR,  # type: ignore[misc]
        )
    for hours, rate in ((20.0, 0.03), (10.0, 0.1)):
        yield Row(
            source="daly",
            what=f"{hours:g} h with hourly marks at {rate:g} failures an hour",
            expected=hours * (1 / rate + 0.25) * math.expm1(rate),
            unit="h",
            within=1e-6,
            ours=lambda hours=hours, rate=rate: _going_on(hours, rate),  # type: ignore[misc]
        )
    yield Row(source="graham", what="longest first", expected=7.0, unit="", within=1e-9, ours=lambda: _end(best=False))
    yield Row(source="graham", what="best order", expected=6.0, unit="", within=1e-9, ours=lambda: _end(best=True))
    for day, hours in ((27, 8.0), (20, 9.0)):
        yield Row(
            source="eu84",
            what=f"22:00 to 07:00 from {day} March 2027, Berlin",
            expected=hours,
            unit="h",
            within=1e-9,
            ours=lambda day=day: _night(day),  # type: ignore[misc]
        )
    yield Row(
        source="eu84",
        what="10 h from 22:00 on 30 October 2027: clock",
        expected=7.0,
        unit="h",
        within=1e-9,
        ours=lambda: float(Wall(start=datetime(2027, 10, 30, 22, 0), zone="Europe/Berlin").at(600).hour),
    )
