"""Dispatch: plates one after the other on the printer that ends them first, and the best of many orders."""

from __future__ import annotations

from datetime import date, datetime
from itertools import pairwise

import pytest

from planner.schedule.calendar.schedule_records import PrintRun, Shop, Task
from planner.schedule.calendar.schedule_terms import Judge, ScheduleTerms
from planner.schedule.calendar.wall_clock import Wall
from planner.schedule.solver.dispatch import Dispatch, first_calendar, in_order, waits_kept

ALWAYS = ((0, 100_000),)
TWO = Shop(change_min={"a": 1, "b": 1}, attended=ALWAYS, people_n=2)


def _tasks(*minutes: int, printers: str = "ab") -> list[Task]:
    """Return plates that take some minutes on every printer."""
    return [Task(plate=n, takes_min=dict.fromkeys(printers, m)) for n, m in enumerate(minutes, 1)]


def _placed(shop: Shop, tasks: list[Task], terms: ScheduleTerms | None = None) -> list[tuple[int, str, int]]:
    """Return plate, printer and start of dispatched tasks."""
    placed = Dispatch(Judge([terms or ScheduleTerms()], shop)).placed(tasks)
    return [(run.plate, run.printer, run.start_min) for run in placed]


def test_longest_first_misses_the_best_end_and_the_orders_tried_reach_it() -> None:
    """Graham 1969 (SIAM J. Appl. Math. 17:416): 3, 3, 2, 2, 2 on two machines end at 7 longest first, at best at 6."""
    tasks, judge = _tasks(300, 300, 200, 200, 200), Judge([ScheduleTerms()], TWO)
    longest_first = Dispatch(judge).placed(in_order(tasks))
    best = first_calendar(tasks, judge, 1)

    assert max(run.end_min for run in longest_first) == 700 + 2  # two changes before the last
    assert max(run.end_min for run in best) == 600 + 2
    assert sorted(run.plate for run in best) == [1, 2, 3, 4, 5]


def test_one_pair_of_hands_clears_one_bed_at_a_time() -> None:
    """Both plates end at 60: one bed is cleared at once, the other when the hands are free again."""
    shop = Shop(change_min={"a": 10, "b": 10}, attended=ALWAYS)
    placed = Dispatch(Judge([], shop)).placed(_tasks(60, 60))

    assert [(run.printer, run.clear_min, run.free_min) for run in placed] == [("a", 60, 70), ("b", 70, 80)]


def test_what_stays_together_takes_the_printer_that_holds_all() -> None:
    """Plate 1 would end sooner on b, but its twin prints on a alone."""
    twins = [
        Task(plate=1, takes_min={"a": 60, "b": 30}, stay="pair"),
        Task(plate=2, takes_min={"a": 60}, stay="pair"),
    ]

    assert _placed(TWO, twins) == [(1, "a", 0), (2, "a", 61)]


def test_plates_wait_for_others_for_their_job_and_for_the_first_article() -> None:
    """By hand: after plate 1 is cleared at 61, not before 200, and with a first article none beside it."""
    waiting = [*_tasks(60), Task(plate=2, takes_min={"b": 60}, after=(1,))]
    later = [Task(plate=1, takes_min={"a": 60}, not_before_min=200)]

    assert _placed(TWO, waiting) == [(1, "a", 0), (2, "b", 61)]
    assert _placed(TWO, later) == [(1, "a", 200)]
    assert _placed(TWO, _tasks(60, 60), ScheduleTerms(first_article=True)) == [(1, "a", 0), (2, "a", 61)]


def test_no_more_plates_of_a_colour_run_at_once_than_there_are_spools() -> None:
    """One spool of green: the second plate waits for the end of the first though a printer is free."""
    shop = Shop(change_min=TWO.change_min, attended=ALWAYS, people_n=2, reels_n={"green": 1})
    green = [Task(plate=n, takes_min={"a": 60, "b": 60}, reel="green") for n in (1, 2)]

    assert _placed(shop, green) == [(1, "a", 0), (2, "b", 60)]


def test_where_one_plate_finds_no_time_there_is_no_calendar() -> None:
    """A plate of 200 minutes in a single span of 100: nothing is placed, not the others either."""
    shop = Shop(change_min={"a": 1}, attended=((0, 100),))

    assert _placed(shop, _tasks(20, 200, printers="a")) == []
    assert first_calendar(_tasks(20, 200, printers="a"), Judge([], shop), 1) == ()


@pytest.mark.parametrize("seed", range(3))
def test_of_several_jobs_the_one_that_is_due_first_is_on_time(seed: int) -> None:
    """Jackson 1955: on one printer the due order is best for the latest job; a long job due later waits here."""
    wall = Wall(start=datetime(2026, 12, 1, 0, 0))
    terms = [ScheduleTerms(deadline=date(2026, 12, day), wall=wall) for day in (3, 1)]
    tasks = [Task(plate=1, takes_min={"a": 1200}, job=0), Task(plate=1, takes_min={"a": 600}, job=1)]
    judge = Judge(terms, Shop(change_min={"a": 1}, attended=ALWAYS))
    placed = first_calendar(tasks, judge, seed)

    assert [run.job for run in sorted(placed, key=_start)] == [1, 0]
    assert sum(judge.by_job(placed).values()) == 0


def _start(run: PrintRun) -> int:
    """Return when a run starts."""
    return run.start_min


def test_an_order_is_changed_only_where_a_plate_waits() -> None:
    """By hand: 3 waits for 1, so 2, 3, 1 becomes 2, 1, 3; of a ring of waits the first breaks it and none is lost."""
    one, two, three = _tasks(10, 30, 20)
    waits = Task(plate=3, takes_min=three.takes_min, after=(1,))
    ring = [Task(plate=1, takes_min={"a": 1}, after=(2,)), Task(plate=2, takes_min={"a": 1}, after=(1,))]

    assert [task.plate for task in waits_kept([two, waits, one])] == [2, 1, 3]
    assert [task.plate for task in in_order([one, waits, two])] == [2, 1, 3]
    assert [task.plate for task in in_order([one, two, three])] == [2, 3, 1]
    assert [task.plate for task in waits_kept(ring)] == [1, 2]


def test_the_same_seed_gives_the_same_calendar_without_overlap() -> None:
    """Twelve plates on one printer: the same runs to the minute, each after the bed of the last is cleared."""
    tasks, judge = _tasks(*range(20, 140, 10), printers="a"), Judge([ScheduleTerms()], TWO)
    one, other = (first_calendar(tasks, judge, 4, tries_n=20) for _ in range(2))

    assert one == other
    assert all(b.start_min >= a.free_min for a, b in pairwise(sorted(one, key=_start)))
