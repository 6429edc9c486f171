"""Loads of jobs: the tasks, the shop and the clock that come of them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import pytest

from planner.job import Attended, Calendar, Printer, read_printer
from planner.schedule.calendar.job_tasks import (
    JobLoads,
    PlateLoad,
    printers_of_all,
    shop_of,
    shop_of_all,
    tasks_of,
    wall_of,
)
from planner.schedule.calendar.weekly_spans import HORIZON_MIN
from planner.schedule.risk.failure_cost import Hazard

EARLY = Calendar(start=datetime(2026, 12, 1, 8, 0), deadline=date(2026, 12, 3))
LATER = Calendar(start=datetime(2026, 12, 1, 10, 30), deadline=date(2026, 12, 3))


def _job(calendar: Calendar, printers: tuple[Printer, ...], *loads: PlateLoad) -> JobLoads:
    """Return a job."""
    return JobLoads(loads=loads, calendar=calendar, printers=printers)


def test_the_clock_begins_with_the_first_job_and_others_wait(printer: Printer) -> None:
    """A job that starts at 10:30 beside one at 8:00 has no task before minute 150; its 90.5 s are two minutes."""
    wall = wall_of([LATER, EARLY])
    tasks = tasks_of(_job(LATER, (printer,), PlateLoad(plate=1, takes_s={printer.name: 90.5})), wall, 1)

    assert wall.start == EARLY.start
    assert (tasks[0].not_before_min, tasks[0].takes_min, tasks[0].job) == (150, {printer.name: 2}, 1)


def test_tasks_stand_in_order_of_rank_and_after_the_first_joint(printer: Printer) -> None:
    """Where one joint is asked for first, every other plate comes after its plate."""
    loads = [PlateLoad(plate=n, takes_s={printer.name: 600.0}, rank=rank, first=n == 2) for n, rank in ((1, 5), (2, 0))]
    asked = _job(replace(EARLY, first_article=True), (printer,), *loads)
    tasks = tasks_of(asked, wall_of([EARLY]))

    assert [(task.plate, task.after) for task in tasks] == [(2, ()), (1, (2,))]
    plain = _job(replace(EARLY, first_article=False), (printer,), *loads)
    assert all(task.after == () for task in tasks_of(plain, wall_of([EARLY])))


def test_printers_of_one_name_are_one_machine(printer: Printer) -> None:
    """Two jobs name the bench printer, one a small one too: two machines; the later of two dates frees it."""
    small = read_printer("small-180", Path())
    jobs = [
        replace(_job(EARLY, (printer, small)), printers_free={printer.name: datetime(2026, 12, 1, 9, 0)}),
        replace(_job(LATER, (printer,)), printers_free={printer.name: datetime(2026, 12, 1, 11, 0)}),
    ]

    assert [one.name for one in printers_of_all(jobs)] == [printer.name, small.name]
    assert shop_of_all(jobs).free_from_min == {printer.name: 180}


def test_without_attended_hours_somebody_is_always_there(printer: Printer) -> None:
    """The whole horizon is attended; with hours, from 17:30 to 22:30 of the first Tuesday on, 570 min after 8:00."""
    evenings = replace(EARLY, attended=(Attended(days=(0, 1, 2, 3, 4), from_min=1050, to_min=1350),))

    assert shop_of(EARLY, (printer,)).attended == ((0, HORIZON_MIN),)
    assert shop_of(evenings, (printer,)).attended[0] == (570, 870)


def test_plates_printed_piece_by_piece_lose_less(printer: Printer) -> None:
    """A failure then costs one piece, not the plate; the fastest printer says how short a plate can be."""
    whole = PlateLoad(plate=1, takes_s={printer.name: 36000.0, "other": 30000.0})
    in_turn = replace(whole, ends=(0.0, 0.25, 0.5, 0.75, 1.0))
    hazard = Hazard.of(printer)

    assert 0.0 < in_turn.lost_s(printer.name, hazard) < whole.lost_s(printer.name, hazard)
    assert whole.shortest_s == pytest.approx(30000.0)
    assert PlateLoad(plate=2, takes_s={}).shortest_s == 0.0
