"""Unnumbered: plates under other numbers are the same question, and get the same calendar without another search."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.schedule import Answer, Judge, PrintRun, Shop, Task, proved, solved
from planner.schedule.calendar.unnumbered import Unnumbered
from planner.schedule.solver import solve
from planner.schedule.solver.dispatch import first_calendar

DAYS = tuple((1440 * day + 480, 1440 * day + 1200) for day in range(6))
SHOP = Shop(change_min={"one": 10, "two": 10}, attended=DAYS, unattended=True, people_n=1)

tasks_of_two_jobs = st.lists(
    st.builds(
        lambda job, takes, both, rank: (job, {"one": takes, "two": takes} if both else {"two": takes}, rank),
        st.integers(0, 1),
        st.sampled_from([60, 60, 90, 400]),
        st.booleans(),
        st.integers(0, 1),
    ),
    min_size=1,
    max_size=7,
).map(lambda rows: [Task(plate=k, job=job, takes_min=t, rank=r) for k, (job, t, r) in enumerate(rows, 1)])


def _renumbered(tasks: list[Task], order: list[int]) -> tuple[list[Task], dict[int, int]]:
    """Return tasks whose plates have the numbers of an order, and the number of each before."""
    numbers = {task.plate: number for number, task in zip(order, tasks, strict=True)}
    made = [
        replace(task, plate=numbers[task.plate], after=tuple(sorted(numbers[plate] for plate in task.after)))
        for task in tasks
    ]
    return sorted(made, key=lambda task: task.plate), {number: plate for plate, number in numbers.items()}


def _told(placed: tuple[PrintRun, ...], tasks: list[Task]) -> Counter[object]:
    """Return runs by what their plates are, without numbers."""
    known = {task.key: task for task in tasks}
    return Counter(
        (run.job, run.printer, run.start_min, run.clear_min, tuple(known[run.key].takes_min.items())) for run in placed
    )


@given(tasks_of_two_jobs, st.data())
def test_other_numbers_are_the_same_question_and_their_answer_holds(tasks: list[Task], data: st.DataObject) -> None:
    """Tasks in any order of numbers, one waiting for another or not, are alike without them; runs come back as theirs."""
    jobs = [task for task in tasks if task.job == tasks[0].job]
    if len(jobs) > 1 and data.draw(st.booleans()):
        tasks = [replace(t, after=(jobs[0].plate,)) if t is jobs[-1] else t for t in tasks]
    order = data.draw(st.permutations(range(1, len(tasks) + 1)))
    other, before = _renumbered(tasks, list(order))
    mine, theirs = Unnumbered.of(tasks), Unnumbered.of(other)
    placed = first_calendar(mine.tasks, Judge((), SHOP), 1, tries_n=1)
    here, there = mine.numbered(placed), theirs.numbered(placed)
    assert not proved(here, tasks, SHOP, ())
    assert _told(here, tasks) == _told(placed, list(mine.tasks))
    if mine.tasks == theirs.tasks:
        assert not proved(there, other, SHOP, ())
        assert _told(there, other) == _told(here, tasks)
        assert {before[run.plate] for run in there} == {run.plate for run in here}
    else:  # plates that nothing but what waits for them tells apart may stand in another order: another search
        assert any(task.after for task in tasks)


def test_numbering_plates_by_their_starts_asks_for_no_other_search(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Six plates, the short ones not first by number: under numbers by their starts one search gave both answers."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    searches = list[int]()
    search = solve._solved

    def counted(tasks: Sequence[Task], judge: Judge) -> Answer:
        searches.append(len(tasks))
        return search(tasks, judge)

    monkeypatch.setattr(solve, "_solved", counted)
    tasks = [Task(plate=k, takes_min={"one": 60 + 40 * (k % 3)}) for k in range(1, 7)]
    shop = replace(SHOP, change_min={"one": 10})
    first = solved(tasks, shop).placed
    order = [run.plate for run in first]
    other, _ = _renumbered(tasks, [order.index(task.plate) + 1 for task in tasks])
    second = solved(other, shop).placed
    assert [run.plate for run in second] == list(range(1, 7))
    assert [run.start_min for run in second] == [run.start_min for run in first]
    assert searches == [6]


def test_of_plates_that_are_alike_the_lower_number_runs_first() -> None:
    """Three equal plates: whatever a search calls them, they run in the order of their numbers."""
    asked = Unnumbered.of([Task(plate=k, takes_min={"one": 60}) for k in (2, 5, 9)])
    runs = [
        PrintRun(plate=k, printer="one", start_min=at, end_min=at + 60, clear_min=at + 60, free_min=at + 70)
        for k, at in ((1, 200), (2, 100), (3, 0))
    ]
    assert [(run.plate, run.start_min) for run in asked.numbered(runs)] == [(2, 0), (5, 100), (9, 200)]
