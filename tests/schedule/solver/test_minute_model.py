"""The calendar to the minute: each aim by hand, where another aim would choose otherwise."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

import pytest

from planner.schedule import Aim, Judge, PrintRun, ScheduleTerms, Shop, Task, Wall
from planner.schedule.calendar.schedule_terms import last_free_min
from planner.schedule.solver.calendar_proof import proved
from planner.schedule.solver.minute_model import MinuteModel

SHOP = Shop(change_min={"a": 10}, attended=((0, 5000),))
PAIR = Shop(change_min={"a": 1, "b": 1}, attended=((0, 5000),), people_n=2)


def _task(job: int, plate: int, takes_min: int, shop: Shop = SHOP) -> Task:
    """Return a plate that takes as long on every printer."""
    return Task(job=job, plate=plate, takes_min=dict.fromkeys(shop.change_min, takes_min))


def _found(
    tasks: Sequence[Task], aim: Aim, terms: Sequence[ScheduleTerms] = (), shop: Shop = SHOP
) -> tuple[PrintRun, ...]:
    """Return what is found by an aim, proved apart."""
    placed, _ = MinuteModel(tasks, Judge(terms, shop), 5000).found(2.0, 1, (), aim, 9)
    assert not proved(placed, tasks, shop, terms)
    return placed


@pytest.mark.parametrize(("aim", "first"), [("ready", 1), ("ends", 0)])
def test_devices_ready_early_outweigh_plates_that_end_early(aim: Aim, first: int) -> None:
    """A device of two plates of 40 min, one of a single plate of 60, on one printer with 10 min to change, by hand.

    The single one first: ready at 70 and 170, ends 60 + 110 + 160 = 330. The other first: 100 and 170, ends 290.
    """
    placed = _found([_task(0, 1, 40), _task(0, 2, 40), _task(1, 1, 60)], aim)
    begins = min(placed, key=lambda run: run.start_min)

    assert begins.job == first
    assert sum(last_free_min(placed).values()) == (240 if aim == "ready" else 270)
    assert sum(run.end_min for run in placed) == (330 if aim == "ready" else 290)


@pytest.mark.parametrize(("aim", "first"), [("late", 0), ("ready", 1)])
def test_days_late_outweigh_devices_ready_early(aim: Aim, first: int) -> None:
    """From 17:30 a plate of 300 min is in time on its day only if it goes first; a short one first is ready sooner."""
    wall = Wall(start=datetime(2026, 12, 1, 17, 30))
    terms = [ScheduleTerms(deadline=date(2026, 12, 1), wall=wall), ScheduleTerms()]
    placed = _found([_task(0, 1, 300), _task(1, 1, 100)], aim, terms)
    late = Judge(terms, SHOP).by_job(placed)

    assert min(placed, key=lambda run: run.start_min).job == first
    assert late[0] == (0 if aim == "late" else 1)


def test_an_early_last_end_is_another_aim_than_early_ends() -> None:
    """Plates of 300, 300, 200, 200 and 200 on two printers, 1 min to change (a textbook case of parallel machines).

    The last end is earliest as 300 + 300 beside 200 + 200 + 200, by hand 602; the sum of ends where short ones go first.
    """
    tasks = [_task(0, plate, takes, PAIR) for plate, takes in enumerate((300, 300, 200, 200, 200), start=1)]
    finish, ends = (_found(tasks, aim, shop=PAIR) for aim in ("finish", "ends"))

    assert max(run.end_min for run in finish) == 602
    assert max(run.end_min for run in ends) > 602
    assert sum(run.end_min for run in ends) == 200 + 200 + 401 + 501 + 702 < sum(run.end_min for run in finish)


def test_tidying_clears_every_bed_as_soon_as_hands_allow_and_moves_no_start() -> None:
    """A bed that waits until 400 without need is cleared when its plate ends, at 60."""
    task = _task(0, 1, 60)
    lazy = PrintRun(job=0, plate=1, printer="a", start_min=0, end_min=60, clear_min=400, free_min=410)
    (run,) = MinuteModel([task], Judge((), SHOP), 5000).tidied((lazy,), 2.0, 1)

    assert (run.start_min, run.clear_min, run.free_min) == (0, 60, 70)


def test_what_is_impossible_is_found_to_be_so() -> None:
    """Two plates of 60 min on one printer cannot both end within 100: nothing is found."""
    tasks = [_task(0, 1, 60), _task(0, 2, 60)]
    placed, _ = MinuteModel(tasks, Judge((), SHOP), 100).found(2.0, 1, ())

    assert placed == ()
