"""Records of the schedule: what they say of themselves, by hand."""

from __future__ import annotations

from planner.schedule.calendar.schedule_records import Answer, PrintRun, Shop, Task, by_key, finish_of, on_one_printer


def _run(plate: int, printer: str, end_min: int) -> PrintRun:
    """Return a run of an hour."""
    return PrintRun(
        plate=plate, printer=printer, start_min=end_min - 60, end_min=end_min, clear_min=end_min, free_min=end_min + 5
    )


def test_a_task_waits_for_plates_of_its_own_job_and_knows_its_fastest_printer() -> None:
    """Plate 3 of job 2 waits for (2, 1); of 90 and 60 minutes the shorter counts; without a printer it is 0."""
    task = Task(plate=3, job=2, takes_min={"slow": 90, "fast": 60}, after=(1,))

    assert (task.key, task.after_keys, task.shortest_min) == ((2, 3), ((2, 1),), 60)
    assert Task(plate=1, takes_min={}).shortest_min == 0


def test_the_last_end_counts_what_failures_cost_on_the_printer_of_the_run() -> None:
    """Ends at 100 and 120; 30 minutes are lost on printer a alone: 130 decides; an empty calendar ends at 0."""
    tasks = by_key(Task(plate=n, takes_min={"a": 60, "b": 60}, lost_min={"a": 30}) for n in (1, 2))

    assert list(tasks) == [(0, 1), (0, 2)]
    assert finish_of([_run(1, "a", 100), _run(2, "b", 120)], tasks) == 130
    assert finish_of([_run(1, "b", 100), _run(2, "b", 120)], tasks) == 120
    assert finish_of([], tasks) == 0


def test_tasks_share_one_printer_only_where_no_task_has_another() -> None:
    """One task that may also go to b makes them two printers' tasks."""
    alone, free = Task(plate=1, takes_min={"a": 60}), Task(plate=2, takes_min={"a": 60, "b": 60})

    assert on_one_printer([alone, alone])
    assert not on_one_printer([alone, free])
    assert not on_one_printer([alone, Task(plate=3, takes_min={"b": 60})])


def test_the_gap_is_told_of_the_bound() -> None:
    """Ending at 120 where nothing ends before 100 is 20 %; at the bound it is none, also where that is 0."""
    assert [Answer(placed=(), finish_min=f, bound_min=b).gap_percent for f, b in ((120, 100), (100, 100), (0, 0))] == [
        20.0,
        0.0,
        0.0,
    ]


def test_a_printer_without_hours_of_its_own_has_those_of_the_place() -> None:
    """Printer b has its own."""
    shop = Shop(change_min={"a": 1, "b": 1}, attended=((0, 100),), hours={"b": ((20, 30),)})

    assert (shop.there("a"), shop.there("b")) == (((0, 100),), ((20, 30),))
