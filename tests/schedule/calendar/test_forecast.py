"""Forecasts: when a device is ready by a dispatched schedule, checked on the clock by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import pytest

from planner.job import Attended, Calendar, Printer
from planner.schedule.calendar.forecast import forecast, late_days_of
from planner.schedule.calendar.job_tasks import JobLoads, PlateLoad
from planner.schedule.hands.hand_steps import Step
from planner.sourced import stated

EVENINGS = Calendar(
    start=datetime(2026, 12, 1, 17, 30),
    deadline=date(2026, 12, 1),
    attended=(Attended(days=(0, 1, 2, 3, 4), from_min=1050, to_min=1350),),
)


@pytest.fixture(name="calm")
def _calm(printer: Printer) -> Printer:
    """Return a printer that never fails and is cleared in ten minutes."""
    return replace(printer, failure_per_hour=stated(0.0), plate_change_s=stated(600.0))


def _job(printer: Printer, *hours: float, steps: tuple[Step, ...] = ()) -> JobLoads:
    """Return a job of plates that take exactly so long."""
    loads = tuple(
        PlateLoad(plate=n, takes_s={printer.name: h * 3600.0}, ratio=(1.0, 1.0, 1.0)) for n, h in enumerate(hours, 1)
    )
    return JobLoads(loads=loads, calendar=EVENINGS, printers=(printer,), steps=steps)


def test_without_failures_plan_and_average_are_the_same_minute(calm: Printer) -> None:
    """One plate of 2 h from 17:30, cleared by 19:40, then 20 minutes of work: 20:00 by plan and on average."""
    found = forecast(_job(calm, 2.0, steps=(Step(name="assemble", takes_min=20),)))

    assert found.ready == found.expected == datetime(2026, 12, 1, 20, 0)
    assert (found.late_days, found.unmet_n) == (0, 0)


def test_days_late_are_counted_from_the_deadline(calm: Printer) -> None:
    """Two plates of 3 h need two evenings of 5 h: a day late; and every job of two is counted on one printer."""
    job = _job(calm, 3.0, 3.0)

    assert forecast(job).late_days == 1
    assert late_days_of([job]) == (0, 1)
    assert late_days_of([_job(calm, 3.0), _job(calm, 3.0)]) == (0, 1)


def test_a_printer_that_fails_is_ready_later_on_average_alone(calm: Printer) -> None:
    """With a failure in ten hours the plan's date stands, the expected one is later."""
    found = forecast(_job(replace(calm, failure_per_hour=stated(0.1)), 4.0))

    assert found.ready == datetime(2026, 12, 1, 21, 40)
    assert found.expected is not None
    assert found.expected > found.ready


def test_a_plate_that_no_evening_holds_leaves_the_device_without_a_date(calm: Printer) -> None:
    """6 h in evenings of 5 h: no date, one plate without a time, and no day is called late."""
    found = forecast(_job(calm, 6.0, 1.0))

    assert (found.ready, found.expected, found.late_days, found.unmet_n) == (None, None, 0, 1)
    assert late_days_of([_job(calm, 6.0, 1.0)]) == (1, 0)
