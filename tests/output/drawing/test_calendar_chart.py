"""The calendar's rows: attended hours and runs where the clock says."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest

from planner.job import Attended
from planner.output.drawing.calendar_chart import calendar_days
from planner.packing import Run
from tests.output.conftest import Reports
from tests.plan.jobs import changed


def test_runs_lie_where_they_run(reports: Reports) -> None:
    """A run over midnight fills the evening and the morning; an attended night belongs to both days."""
    plan = reports.plan("heron")
    assert plan.job.calendar
    calendar = replace(plan.job.calendar, attended=(Attended(days=(4,), from_min=18 * 60, to_min=26 * 60),))
    run = Run(plate=1, printer="p", start=datetime(2026, 12, 4, 18, 0), end=datetime(2026, 12, 5, 1, 30))
    days = calendar_days(changed(plan, job=replace(plan.job, calendar=calendar), runs=(run,), coupon=None))

    assert [day.name for day in days] == ["Fri 4 Dec", "Sat 5 Dec"]
    assert [(day.runs[0].left_percent, day.runs[0].width_percent) for day in days] == [
        (75.0, 25.0),
        (0.0, pytest.approx(6.25)),
    ]
    assert [(day.attended[0].left_percent, day.attended[0].width_percent) for day in days] == [
        (75.0, 25.0),
        (0.0, pytest.approx(100 / 12)),
    ]


def test_printers_have_rows_of_their_own_and_the_coupon_is_in_them(reports: Reports) -> None:
    """Two plates at the same time never lie over each other; the coupon's day comes first."""
    plan = reports.plan("heron")
    assert plan.coupon is not None
    start, end = datetime(2026, 12, 4, 18, 0), datetime(2026, 12, 4, 21, 0)
    coupon = replace(plan.coupon, printer="a", start=datetime(2026, 12, 3, 18, 0), end=datetime(2026, 12, 3, 18, 36))
    runs = tuple(Run(plate=k, printer=printer, start=start, end=end) for k, printer in ((1, "a"), (2, "b")))
    days = calendar_days(changed(plan, runs=runs, coupon=coupon))

    assert [day.name for day in days] == [f"{day} Dec, {name}" for day in ("Thu 3", "Fri 4") for name in "ab"]
    assert [[run.plate for run in day.runs] for day in days] == [[0], [], [1], [2]]
    assert days[0].runs[0].text.startswith("coupon")


def test_without_times_there_is_no_calendar(reports: Reports) -> None:
    """A plan without a start has no rows."""
    assert calendar_days(reports.plan("folder")) == ()
