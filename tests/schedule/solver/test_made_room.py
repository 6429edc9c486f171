"""Plates of late jobs change places with plates of jobs that have time."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from planner.schedule import ScheduleTerms, Shop, Task, Wall, proved
from planner.schedule.calendar.schedule_terms import Judge
from planner.schedule.solver.made_room import lateness, moved_n, with_room
from planner.schedule.solver.stays import as_it_stood

WALL = Wall(start=datetime(2026, 11, 30, 8))
SHOP = Shop(change_min={"a": 10}, attended=((0, 9000),), unattended=True)
TERMS = [ScheduleTerms(deadline=date(2026, 11, day), wall=WALL) for day in (30,)]
TERMS += [ScheduleTerms(deadline=date(2026, 12, day), wall=WALL) for day in (3, 9)]


def test_only_the_late_plate_and_one_that_has_time_change_places() -> None:
    """By hand: of three plates of ten hours on one printer the second is due today; it takes the first one's place."""
    tasks = [
        Task(job=job, plate=1, takes_min={"a": 600}, stood=(start, "a")) for job, start in ((0, 610), (1, 1220), (2, 0))
    ]
    judge = Judge(TERMS, SHOP)
    stood = as_it_stood(tasks, judge)
    found = with_room(tasks, judge, stood, 1)

    assert lateness(stood, judge)[0] == 1
    assert lateness(found, judge) == (0, 0)
    assert {run.job: run.start_min for run in found} == {0: 0, 1: 1220, 2: 610}
    assert not proved(found, tasks, SHOP, TERMS)
    assert (moved_n(tasks, stood), moved_n(tasks, found)) == (0, 0)  # neither by more than half a day
    assert moved_n([replace(task, stood=(4000, "a")) for task in tasks], found) == 3


def test_a_new_printer_takes_a_plate_where_the_others_of_its_job_change_their_order() -> None:
    """By hand: five hours an evening, due on the second; only with 3 on b, and 2 before 1 on a, is all off in time.

    Two plates are late, and neither is in time where only they move: printer b takes one an evening.
    """
    evenings = tuple((1440 * day, 1440 * day + 300) for day in range(4))
    shop = Shop(change_min={"a": 16, "b": 16}, attended=evenings, unattended=True)
    wall = Wall(start=datetime(2026, 11, 30, 17))
    judge = Judge([ScheduleTerms(deadline=date(2026, 12, day), wall=wall) for day in (1, 9)], shop)
    stood = {(0, 4): (56, 0), (1, 1): (134, 72), (0, 1): (198, 222), (0, 2): (290, 1456), (0, 3): (292, 2896)}
    tasks = [
        Task(job=job, plate=plate, takes_min={"a": takes, "b": takes}, stood=(start, "a"))
        for (job, plate), (takes, start) in stood.items()
    ]
    before = as_it_stood(tasks, judge)
    found = with_room(tasks, judge, before, 1)

    assert lateness(before, judge)[0] > 0
    assert lateness(found, judge) == (0, 0)
    assert moved_n(tasks, found) == 3
    assert {(run.plate, run.printer) for run in found if run.job == 0 and run.start_min < 300} == {
        (4, "a"),
        (2, "a"),
        (3, "b"),
    }
    assert not proved(found, tasks, shop, judge.terms)


def test_where_nobody_has_time_nothing_moves() -> None:
    """All are due today, one can be in time: the calendar stays as it was."""
    tasks = [Task(job=job, plate=1, takes_min={"a": 600}, stood=(610 * job, "a")) for job in range(2)]
    judge = Judge([TERMS[0]] * 2, SHOP)
    stood = as_it_stood(tasks, judge)

    assert with_room(tasks, judge, stood, 1) == stood
