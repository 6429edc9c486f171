"""The calendar as one row a day: when somebody is there, and which plate runs."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from planner.packing import Run
from planner.plan import Plan

DAYS_MOST = 28
"""Rows shown; a plan that takes longer says so."""
DAY_S = 86_400.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of a day in percent of its 24 hours, and what it is."""

    left_percent: float
    width_percent: float
    text: str
    plate: int = 0
    """The plate that runs; 0 for the coupon, and where nothing does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """One day of a printer with its attended hours and its runs."""

    name: str
    attended: tuple[Stretch, ...]
    runs: tuple[Stretch, ...]


def calendar_days(plan: Plan) -> tuple[Day, ...]:
    """Return the days from the first start to the last end, each printer's apart; empty where no plate has a time."""
    runs = [run for run in plan.runs if run.start is not None and run.end is not None]
    if not runs or plan.job.calendar is None:
        return ()
    if plan.coupon is not None:
        runs.insert(0, Run(plate=0, printer=plan.coupon.printer, start=plan.coupon.start, end=plan.coupon.end))
        runs = [run for run in runs if run.start is not None]
    first = min(run.start.date() for run in runs if run.start)
    last = max(run.end.date() for run in runs if run.end)
    days_n = min((last - first).days + 1, DAYS_MOST)
    printers = sorted({run.printer for run in runs})
    return tuple(
        _day(plan, first + timedelta(days=index), [run for run in runs if run.printer == printer], beside)
        for index in range(days_n)
        for printer in printers
        for beside in [f", {printer}" if len(printers) > 1 else ""]
    )


def _day(plan: Plan, day: date, runs: list[Run], beside: str) -> Day:
    """Return one day of one printer; ``beside`` follows the day in its name."""
    calendar = plan.job.calendar
    assert calendar is not None
    midnight = datetime.combine(day, time())
    there = [
        _stretch(
            midnight + timedelta(days=-back, minutes=window.from_min),
            midnight + timedelta(days=-back, minutes=window.to_min),
            midnight,
            "somebody is there",
        )
        for back in (0, 1)  # a window of the evening before may reach past midnight
        for window in calendar.attended
        if (day - timedelta(days=back)).weekday() in window.days
    ]
    ran = [
        _stretch(run.start, run.end, midnight, f"plate {run.plate}" if run.plate else "coupon", run.plate)
        for run in runs
        if run.start is not None and run.end is not None
    ]
    return Day(
        name=f"{day:%a} {day.day} {day:%b}{beside}",
        attended=tuple(stretch for stretch in there if stretch),
        runs=tuple(stretch for stretch in ran if stretch),
    )


def _stretch(start: datetime, end: datetime, midnight: datetime, what: str, plate: int = 0) -> Stretch | None:
    """Return the part of a stretch of time that falls on one day; None where none does."""
    low = max((start - midnight).total_seconds(), 0.0)
    high = min((end - midnight).total_seconds(), DAY_S)
    if high <= low:
        return None
    return Stretch(
        left_percent=100.0 * low / DAY_S,
        width_percent=100.0 * (high - low) / DAY_S,
        text=f"{what}, {start:%H:%M} to {end:%H:%M}",
        plate=plate,
    )
