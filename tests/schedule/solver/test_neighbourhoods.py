"""Neighbourhoods: a calendar gets better, or stays, by the very order that calendars are ranked by; it is proved."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import numpy as np
import pytest

from planner.schedule import AIMS, Aim, Judge, PrintRun, ScheduleTerms, Shop, Step, Task, Wall, by_key, proved, solved
from planner.schedule.solver.dispatch import Dispatch, in_order
from planner.schedule.solver.minute_model import MinuteModel
from planner.schedule.solver.neighbourhoods import improved
from tests.schedule.test_several_jobs import _case

WALL = Wall(start=datetime(2026, 12, 1, 17, 30))
SHOP = Shop(
    change_min={"a": 15, "b": 15}, attended=tuple((day * 1440, day * 1440 + 300) for day in range(60)), people_n=2
)


@pytest.mark.parametrize("aim", ["late", "finish", "ready"])
def test_what_is_improved_is_no_worse_and_holds(aim: Aim) -> None:
    """Eighteen plates, dispatched longest first without a thought for due dates: days late, the end and devices."""
    tasks, shop, terms = _case(4)
    judge, known = Judge(terms, shop), by_key(tasks)
    first = Dispatch(judge).placed(in_order(tasks))
    better = improved(tasks, judge, first, aim, 4, 20)

    assert proved(better, tasks, shop, terms) == ()
    now, before = judge.worth(better, known), judge.worth(first, known)
    assert (now["late"], now[aim]) <= (before["late"], before[aim])
    assert aim != "late" or judge.score(better, known)[0] < judge.score(first, known)[0]
    assert better == improved(tasks, judge, first, aim, 4, 20)


def _due_case(seed: int, jobs_n: int, plates_n: int) -> tuple[list[Task], list[ScheduleTerms]]:
    """Return jobs with work after their last plate; some are due soon."""
    rng = np.random.default_rng(seed)
    tasks = []
    for job, plate in ((job, plate) for job in range(jobs_n) for plate in range(1, plates_n + 1)):
        takes = {"a": int(rng.integers(30, 200)), "b": int(rng.integers(30, 200))}
        tasks.append(Task(job=job, plate=plate, takes_min=takes, lost_min={"a": 5, "b": 9}))
    terms = [
        ScheduleTerms(
            steps=(Step(name="cord", takes_min=int(rng.integers(20, 200))),),
            deadline=date(2026, 12, int(rng.integers(1, 6))),
            wall=WALL,
        )
        for _ in range(jobs_n)
    ]
    return tasks, terms


@pytest.mark.parametrize(("jobs_n", "plates_n"), [(2, 2), (3, 2), (3, 4)])
@pytest.mark.parametrize("seed", range(3))
def test_no_engine_finds_what_a_person_would_rather_have(seed: int, jobs_n: int, plates_n: int) -> None:
    """Few plates are solved exactly, twelve are spread: no order by lot is ranked before either, by any of the aims."""
    tasks, terms = _due_case(seed, jobs_n, plates_n)
    judge, known, rng = Judge(terms, SHOP), by_key(tasks), np.random.default_rng(seed)
    answer, dispatch = solved(tasks, SHOP, terms), Dispatch(judge)
    assert proved(answer.placed, tasks, SHOP, terms) == ()
    best = judge.score(answer.placed, known)

    for _ in range(200):
        assert best <= judge.score(dispatch.placed([tasks[k] for k in rng.permutation(len(tasks))]), known)
    for aim in AIMS if jobs_n * plates_n <= 8 else ():
        placed, _ = MinuteModel(tasks, judge, 5 * 1440).found(0.5, seed, (), aim, most_days=20)
        assert not placed or best <= judge.score(placed, known)


@pytest.mark.parametrize("aim", AIMS)
def test_the_model_counts_every_aim_as_the_ranking_does(aim: Aim) -> None:
    """A calendar held at its own worth by one aim stays possible; held one below, the same starts are not."""
    tasks, terms = _due_case(1, 2, 2)
    judge, known = Judge(terms, SHOP), by_key(tasks)
    placed = _moved_on(Dispatch(judge).placed(tasks))
    worth = judge.worth(placed, known)
    assert all(worth.values()), "every aim has something to hold"

    for less, found in ((0, True), (1, False)):
        model = MinuteModel(tasks, judge, 10 * 1440, fixed={run.key: run for run in placed})
        model.hold({aim: worth[aim] - less})
        assert bool(model.found(1.0, 1, placed, "ends")[0]) == found


def _moved_on(placed: tuple[PrintRun, ...]) -> tuple[PrintRun, ...]:
    """Return a calendar five days later, so that something is late."""
    minutes = {"start_min": 7200, "end_min": 7200, "clear_min": 7200, "free_min": 7200}
    return tuple(replace(run, **{name: getattr(run, name) + n for name, n in minutes.items()}) for run in placed)
