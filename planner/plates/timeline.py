"""Timeline: when each plate runs, on one printer, while somebody is at home."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, time, timedelta

from planner.job import Calendar, Printer
from planner.plates.plate import Plate, Run

HORIZON_DAYS = 366
"""A plate that finds no time within a year finds none."""
Window = tuple[datetime, datetime]


def schedule(plates: Sequence[Plate], *, calendar: Calendar | None, printer: Printer) -> tuple[Run, ...]:
    """Return a run for every plate, in order; empty without a calendar or a start.

    Unless unattended printing is allowed, a plate starts and ends within one attended window. A plate longer
    than every window gets no time, and the reason says what to do.
    """
    if calendar is None or calendar.start is None:
        return ()
    runs, free = [], calendar.start
    for plate in plates:
        run, free = _run(plate, calendar, printer, free)
        runs.append(run)
    return tuple(runs)


def _run(plate: Plate, calendar: Calendar, printer: Printer, free: datetime) -> tuple[Run, datetime]:
    """Return the first run of a plate after a moment, and when the printer is free again."""
    takes = timedelta(seconds=round(plate.duration_s.value))
    for begin, end in windows(calendar, free):
        start = max(begin, free)
        if start >= end:
            continue
        stop = start + takes
        if stop <= end or calendar.unattended:
            late = _late(calendar, stop)
            done = stop + timedelta(seconds=round(printer.plate_change_s.value))
            return Run(plate=plate.number, printer=printer.name, start=start, end=stop, reason=late), done
    longest = max((w.to_min - w.from_min for w in calendar.attended), default=0) / 60
    reason = (
        f"it takes {takes.total_seconds() / 3600:.1f} h and the longest attended window is {longest:.1f} h: "
        "split the plate, use a faster printer, or have a rule that allows unattended printing"
    )
    return Run(plate=plate.number, printer=printer.name, start=None, end=None, reason=reason), free


def windows(calendar: Calendar, after: datetime) -> Iterator[Window]:
    """Yield the attended windows from a moment on; one without end where none is stated.

    Windows that touch, also over midnight, are one.
    """
    if not calendar.attended:
        yield after, after + timedelta(days=HORIZON_DAYS)
        return
    day, open_window = after.date() - timedelta(days=1), None
    for step in range(HORIZON_DAYS):
        for begin, end in _of_day(calendar, day + timedelta(days=step)):
            if open_window is not None and begin <= open_window[1]:
                open_window = (open_window[0], max(open_window[1], end))
                continue
            if open_window is not None and open_window[1] > after:
                yield open_window
            open_window = (begin, end)
    if open_window is not None:
        yield open_window


def _of_day(calendar: Calendar, day: date) -> list[Window]:
    """Return the attended windows of one day, earliest first."""
    midnight = datetime.combine(day, time())
    return sorted(
        (midnight + timedelta(minutes=window.from_min), midnight + timedelta(minutes=window.to_min))
        for window in calendar.attended
        if day.weekday() in window.days
    )


def _late(calendar: Calendar, stop: datetime) -> str:
    """Say that a run ends after the deadline, if it does."""
    if calendar.deadline is None or stop.date() <= calendar.deadline:
        return ""
    return f"late: it ends {(stop.date() - calendar.deadline).days} days after the deadline"
