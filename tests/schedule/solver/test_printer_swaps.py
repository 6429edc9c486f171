"""Steadier: of calendars that finish alike, plates lie on the printers that fail less."""

from __future__ import annotations

from planner.schedule.calendar.schedule_records import PrintRun, Shop, Task
from planner.schedule.calendar.schedule_terms import Judge
from planner.schedule.solver.calendar_proof import proved
from planner.schedule.solver.printer_swaps import with_fewer_losses
from planner.schedule.solver.solve import solved

SHOP = Shop(change_min={"bad": 10, "good": 10}, attended=((0, 600), (1440, 2040)), people_n=1)


def _task(plate: int, minutes: int, bad_min: int, good_min: int, *, stay: str = "") -> Task:
    """Return a plate that runs as long on both printers, and loses more on one of them."""
    return Task(
        plate=plate,
        takes_min={"bad": minutes, "good": minutes},
        lost_min={"bad": bad_min, "good": good_min},
        stay=stay,
    )


def _run(plate: int, printer: str, start: int, minutes: int) -> PrintRun:
    """Return a run whose bed is cleared at once."""
    end = start + minutes
    return PrintRun(plate=plate, printer=printer, start_min=start, end_min=end, clear_min=end, free_min=end + 10)


def test_queues_are_exchanged_where_failures_then_cost_less() -> None:
    """By hand: 120 and 60 lost on the bad printer, 10 and 5 on the good one; plates that stay together stay so."""
    tasks = [_task(1, 300, 120, 10, stay="m"), _task(2, 200, 60, 5, stay="m"), _task(3, 100, 8, 4)]
    placed = (_run(1, "bad", 0, 300), _run(2, "bad", 320, 200), _run(3, "good", 0, 100))
    found = with_fewer_losses(placed, tasks, Judge((), SHOP))

    assert {run.plate: run.printer for run in found} == {1: "good", 2: "good", 3: "bad"}
    assert [run.start_min for run in found] == [run.start_min for run in placed]
    assert max(run.end_min for run in found) <= max(run.end_min for run in placed)
    assert not proved(found, tasks, SHOP)


def test_nothing_moves_to_a_printer_that_is_slower_or_busy() -> None:
    """A longer run, another time to clear the bed, or a plate that is there already: the calendar stays."""
    slow = Task(plate=1, takes_min={"bad": 100, "good": 101}, lost_min={"bad": 50, "good": 1})
    alone = (_run(1, "bad", 0, 100),)
    assert with_fewer_losses(alone, [slow], Judge((), SHOP)) == alone
    two = [_task(1, 300, 50, 10), _task(2, 300, 50, 10)]
    both = (_run(1, "bad", 0, 300), _run(2, "good", 11, 300))
    assert with_fewer_losses(both, two, Judge((), SHOP)) == both
    other = Shop(change_min={"bad": 10, "good": 20}, attended=SHOP.attended, people_n=1)
    assert with_fewer_losses(alone, [_task(1, 100, 50, 1)], Judge((), other)) == alone


def test_the_solved_calendar_uses_the_steadier_of_two_like_printers() -> None:
    """The first plate of two is not the one that decides the finish; it lies on the good printer all the same."""
    tasks = [_task(1, 100, 40, 2), _task(2, 560, 30, 30)]
    found = solved(tasks, SHOP)

    assert {run.plate: run.printer for run in found.placed} == {1: "good", 2: "bad"}
    assert found.finish_min == 590
