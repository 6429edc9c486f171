"""What stays of the last plan, and what moves."""

from __future__ import annotations

from dataclasses import replace

from planner.schedule import ScheduleTerms, Shop, Task, proved, solved
from planner.schedule.calendar.schedule_terms import Judge
from planner.schedule.solver.stays import as_it_stood, in_last_order

SHOP = Shop(change_min={"a": 10, "b": 10}, attended=((0, 5000),), unattended=True, people_n=2)
TASKS = [Task(plate=n, takes_min={"a": 100, "b": 100}) for n in range(1, 5)]
STOOD = {1: (0, "a"), 2: (200, "a"), 3: (0, "b"), 4: (110, "b")}


def _stood(**other: Task) -> list[Task]:
    """Return the tasks where they stood."""
    return [other.get(f"t{t.plate}", replace(t, stood=STOOD[t.plate])) for t in TASKS]


def test_what_holds_stays_though_it_could_be_earlier() -> None:
    """Plate 2 waits at minute 200, with a gap before it: nothing changed, so nothing moves."""
    found = as_it_stood(_stood(), Judge((), SHOP))

    assert {run.plate: (run.start_min, run.printer) for run in found} == STOOD
    assert {run.plate: (run.start_min, run.printer) for run in solved(_stood(), SHOP).placed} == STOOD


def test_only_what_must_move_does() -> None:
    """Plate 1 is to start at minute 50 at the earliest: it goes behind plate 4 or 2, and these stay."""
    late = replace(TASKS[0], stood=STOOD[1], not_before_min=50)
    found = {run.plate: (run.start_min, run.printer) for run in as_it_stood(_stood(t1=late), Judge((), SHOP))}

    assert {n: found[n] for n in (2, 3, 4)} == {n: STOOD[n] for n in (2, 3, 4)}
    assert found[1] == (50, "a") or found[1][0] >= 50
    assert not proved(solved(_stood(t1=late), SHOP).placed, _stood(t1=late), SHOP)


def test_a_printer_that_runs_something_moves_its_plates_alone() -> None:
    """b is free from minute 400 on: its two plates move, those on a stay."""
    busy = replace(SHOP, free_from_min={"b": 400})
    found = {run.plate: (run.start_min, run.printer) for run in as_it_stood(_stood(), Judge((), busy))}

    assert (found[1], found[2]) == (STOOD[1], STOOD[2])
    assert all(start >= 400 or printer == "a" for start, printer in found.values())


def test_one_spool_keeps_two_printers_from_running_its_colour_at_once() -> None:
    """Two plates of 100 minutes and one green spool: one after the other, though two printers are idle."""
    shop = replace(SHOP, reels_n={"petg green": 1})
    tasks = [replace(task, reel="petg green") for task in TASKS[:2]]
    for some in (tasks, [replace(task, stood=(0, printer)) for task, printer in zip(tasks, "ab", strict=True)]):
        runs = sorted(solved(some, shop, [ScheduleTerms()]).placed, key=lambda run: run.start_min)
        assert runs[1].start_min >= runs[0].end_min


def test_hands_come_first_where_the_next_plate_waits() -> None:
    """b ends at 95 and nothing follows, a ends at 100 and goes on at 112: one pair of hands clears a first, all stay."""
    shop = replace(SHOP, people_n=1)
    rows = ((1, 99, (1, "a")), (2, 50, (112, "a")), (3, 95, (0, "b")))
    tasks = [Task(plate=n, takes_min=dict.fromkeys("ab", takes), stood=stood) for n, takes, stood in rows]
    found = {run.plate: (run.start_min, run.printer) for run in as_it_stood(tasks, Judge((), shop))}

    assert found == {n: stood for n, _, stood in rows}


def test_the_last_order_is_kept_and_shifted() -> None:
    """Both printers are free from minute 500 on: plates follow in the order in which they stood, none overtakes."""
    busy = replace(SHOP, free_from_min={"a": 500, "b": 500})
    placed = in_last_order(_stood(), Judge((), busy))

    assert [run.plate for run in sorted(placed, key=lambda run: (run.start_min, STOOD[run.plate]))] == [1, 3, 4, 2]
    assert not proved(placed, _stood(), busy)
