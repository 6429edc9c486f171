"""Joint calendars: jobs on shared printers, never two plates on one at once, and as few days late as can be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from itertools import combinations

import numpy as np
import pytest

from planner.schedule import JointJob, Placed, Shop, Step, Task, Wall, joint_calendar, proved, solved

START = datetime(2026, 12, 1, 17, 30)
EVENINGS = tuple((day * 1440, day * 1440 + 300) for day in range(200))


def _shop(*printers: str) -> Shop:
    """Return printers with somebody there every evening for five hours."""
    return Shop(change_min=dict.fromkeys(printers, 15), attended=EVENINGS, people_n=len(printers))


def _job(
    *minutes: int, due: int | None = None, printers: Sequence[str] = ("a",), ranks: Sequence[int] = ()
) -> JointJob:
    """Return a job of plates that take some minutes on every printer, due some days after the start."""
    tasks = tuple(
        Task(plate=k, takes_min=dict.fromkeys(printers, n), rank=ranks[k - 1] if ranks else 0)
        for k, n in enumerate(minutes, start=1)
    )
    return JointJob(tasks=tasks, deadline=None if due is None else START.date() + timedelta(days=due))


def _late(jobs: Sequence[JointJob], runs: Sequence[Sequence[Placed]]) -> int:
    """Return all days late together."""
    days = 0
    for job, placed in zip(jobs, runs, strict=True):
        if job.deadline is not None:
            free = max(run.free for run in placed)
            days += max(0, ((START + timedelta(minutes=free)).date() - job.deadline).days)
    return days


def _orders(left: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Yield every merge of so many tasks of each job."""
    if not any(left):
        yield ()
    for job, n in enumerate(left):
        if n:
            for rest in _orders(tuple(m - (k == job) for k, m in enumerate(left))):
                yield job, *rest


@pytest.mark.parametrize("seed", range(40))
def test_as_few_days_late_as_the_best_of_all_orders_on_one_printer(seed: int) -> None:
    """Against every order of two to four jobs of one or two plates, by hand: a plate ends within its evening."""
    rng = np.random.default_rng(seed)
    jobs = [
        _job(*rng.integers(60, 290, rng.integers(1, 3)).tolist(), due=int(rng.integers(0, 5)))
        for _ in range(rng.integers(2, 5))
    ]
    least = None
    for order in _orders(tuple(len(job.tasks) for job in jobs)):
        minute, given, free = 0, [0] * len(jobs), [0] * len(jobs)
        for job in order:
            takes = jobs[job].tasks[given[job]].takes_min["a"]
            given[job] += 1
            day = minute // 1440
            begin = minute if minute % 1440 + takes <= 300 else (day + 1) * 1440
            end = begin + takes
            minute = end + 15 if end % 1440 + 15 <= 300 else (end // 1440 + 1) * 1440 + 15
            free[job] = minute
        days = sum(
            max(0, ((START + timedelta(minutes=at)).date() - (job.deadline or date.max)).days)
            for at, job in zip(free, jobs, strict=True)
        )
        least = days if least is None else min(least, days)

    found = joint_calendar(jobs, _shop("a"), Wall(start=START))
    assert _late(jobs, found.runs) == found.late_days == least


@pytest.mark.parametrize("seed", range(60))
def test_no_two_plates_are_on_a_printer_at_once(seed: int) -> None:
    """Looked at run by run: printers, evenings, ranks of a job; every plate exactly once."""
    rng = np.random.default_rng(seed)
    printers = "abc"[: rng.integers(1, 4)]
    jobs = [
        _job(
            *rng.integers(20, 290, n).tolist(),
            due=int(rng.integers(0, 9)) if rng.random() < 0.7 else None,
            printers=tuple(printers),
            ranks=rng.integers(0, 3, n).tolist(),
        )
        for n in rng.integers(1, 5, rng.integers(1, 6))
    ]
    found = joint_calendar(jobs, _shop(*printers), Wall(start=START)).runs
    runs = [run for placed in found for run in placed]

    assert [sorted(run.plate for run in placed) for placed in found] == [[t.plate for t in job.tasks] for job in jobs]
    for run in runs:
        assert run.start % 1440 + (run.end - run.start) <= 300
    for one, other in combinations(runs, 2):
        assert one.printer != other.printer or one.free <= other.start or other.free <= one.start
    for job, placed in zip(jobs, found, strict=True):
        rank = {task.plate: task.rank for task in job.tasks}
        for one, other in combinations(placed, 2):
            if rank[one.plate] < rank[other.plate]:
                assert one.free <= other.start


def test_the_job_that_is_due_first_comes_first() -> None:
    """Earliest due date (Jackson 1955, from memory), whatever the order in which jobs are named."""
    jobs = [_job(280, due=9), _job(280, due=1), _job(280, due=2)]
    starts = [placed[0].start // 1440 for placed in joint_calendar(jobs, _shop("a"), Wall(start=START)).runs]

    assert starts == [2, 0, 1]


def test_hands_after_the_last_plate_count() -> None:
    """A job with a day of waiting after its last plate goes before one without, where both are due the same day."""
    waits = _job(200, due=1)
    slow = JointJob(
        tasks=waits.tasks,
        steps=(Step(name="cord", takes_min=10), Step(name="again", takes_min=5, after=("cord",), wait_min=1440)),
        deadline=waits.deadline,
    )
    found = joint_calendar([waits, slow], _shop("a"), Wall(start=START)).runs

    assert found[1][0].start < found[0][0].start


def test_a_plate_longer_than_every_evening_stays_out_and_the_others_run() -> None:
    """It has no time; nothing else waits for it."""
    found = joint_calendar([_job(301, 100), _job(100)], _shop("a"), Wall(start=START)).runs

    assert [[run.plate for run in placed] for placed in found] == [[2], [1]]


def test_a_plate_waits_for_its_own_begin_by_every_way() -> None:
    """Dispatch, the exact model and the proof know a begin of its own; the proof finds what breaks it."""
    shop = Shop(change_min={"p": 5}, attended=((0, 5000),))
    tasks = [Task(plate=1, takes_min={"p": 60}, not_before_min=500), Task(plate=2, takes_min={"p": 60})]
    runs = {run.plate: run for run in solved(tasks, shop).placed}
    early = replace(runs[1], start=200, end=260, clear=260, free=265)

    assert runs[1].start == 500
    assert runs[2].start == 0
    assert any("before its job begins" in each for each in proved([early, runs[2]], tasks, shop))
