"""The calendar: equal to exhaustive search on small shops, proved apart, and within 3 % of its bound on large ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from itertools import product

import numpy as np
import pytest

from planner.job import Attended
from planner.schedule import Judge, PrintRun, Shop, Task, by_key, finish_of, proved, solved
from planner.schedule.calendar.weekly_spans import spans_of, without, worked
from planner.schedule.solver.solve import _lifted

STEP = 60
"""Small shops live on whole hours, so that every calendar can be tried."""


def _small(seed: int) -> tuple[list[Task], Shop]:
    """Return three plates on one or two printers, over three days of different hours."""
    rng = np.random.default_rng(seed)
    printers = ["one", "two"][: int(rng.integers(1, 3))]
    spans = tuple(
        (day * 24 * STEP + int(rng.integers(0, 3)) * STEP, day * 24 * STEP + int(rng.integers(4, 8)) * STEP)
        for day in range(4)
    )
    quiet = tuple((day * 24 * STEP + 2 * STEP, day * 24 * STEP + 3 * STEP) for day in range(4)) if seed % 4 == 1 else ()
    shop = Shop(
        change_min=dict.fromkeys(printers, STEP),
        attended=spans,
        quiet=quiet,
        unattended=bool(seed % 3 == 0),
        people_n=1,
    )
    tasks = []
    for plate in (1, 2, 3):
        able = [p for p in printers if rng.random() < 0.8] or printers[:1]
        tasks.append(
            Task(
                plate=plate,
                takes_min={p: int(rng.integers(1, 5)) * STEP for p in able},
                lost_min={p: int(rng.integers(0, 2)) * STEP for p in able},
                rank=int(rng.integers(0, 2)) if plate > 1 else 0,
                after=(1,) if plate > 1 and seed % 2 else (),
                stay="moving" if seed % 5 == 0 and able == printers else "",
            )
        )
    return tasks, shop


def _all_calendars(tasks: list[Task], shop: Shop) -> Iterator[tuple[PrintRun, ...]]:
    """Yield every calendar on whole hours: each plate on each printer at each start, its bed cleared at each hour."""
    hours = range(0, 5 * 24 * STEP, STEP)
    there = [h for h in hours if any(a <= h and h + STEP <= b for a, b in shop.attended)]
    choices = []
    for task in tasks:
        mine = []
        for printer, takes in task.takes_min.items():
            for start in there:
                alone = PrintRun(
                    plate=task.plate, printer=printer, start_min=start, end_min=start + takes, clear_min=0, free_min=0
                )
                for clear in [h for h in there if h >= alone.end_min][:4]:  # later clearings only delay what follows
                    mine.append(
                        PrintRun(
                            plate=task.plate,
                            printer=printer,
                            start_min=start,
                            end_min=alone.end_min,
                            clear_min=clear,
                            free_min=clear + STEP,
                        )
                    )
        alone_ok = [run for run in mine if not proved([run], [Task(plate=task.plate, takes_min=task.takes_min)], shop)]
        choices.append(alone_ok)
    yield from product(*choices)


def _best(tasks: list[Task], shop: Shop) -> tuple[int, int, int] | None:
    """Return when the last bed is cleared, the last end and the sum of ends of the best calendar; None: there is none."""
    known = by_key(tasks)
    best: tuple[int, int, int] | None = None
    for runs in _all_calendars(tasks, shop):
        score = max(run.free_min for run in runs), finish_of(runs, known), sum(run.end_min for run in runs)
        if (best is None or score < best) and not proved(runs, tasks, shop):
            best = score
    return best


@pytest.mark.parametrize("seed", range(20))
def test_the_calendar_equals_exhaustive_search(seed: int) -> None:
    """Three plates, up to two printers, quiet hours, ranks, one pair of hands: ready, finish and sum of ends are the best."""
    tasks, shop = _small(seed)
    best = _best(tasks, shop)
    if best is None:
        with pytest.raises(ValueError, match="no time"):
            solved(tasks, shop)
        return
    answer = solved(tasks, shop)

    assert proved(answer.placed, tasks, shop) == ()
    ready = max(run.free_min for run in answer.placed)
    assert (ready, answer.finish_min, sum(run.end_min for run in answer.placed)) == best
    assert answer.bound_min == best[1]


def _large(seed: int, *, unattended: bool = False) -> tuple[list[Task], Shop]:
    """Return forty plates of half an hour to nine hours on five printers of different speed, evenings and weekends."""
    rng = np.random.default_rng(seed)
    start = datetime(2026, 12, 1, 17, 30)
    week = (
        Attended(days=(0, 1, 2, 3, 4), from_min=1050, to_min=1350),
        Attended(days=(5, 6), from_min=540, to_min=1320),
    )
    names = [f"p{k}" for k in range(5)]
    shop = Shop(change_min=dict.fromkeys(names, 15), attended=spans_of(week, start), unattended=unattended, people_n=5)
    tasks = [Task(plate=1, takes_min=dict.fromkeys(names, 60))]
    for plate in range(2, 41):
        base = rng.uniform(0.5, 9.0) * 60
        able = [name for name in names if rng.random() < 0.8] or names[:1]
        takes = {name: round(base * (0.8 + 0.1 * names.index(name))) for name in able}
        lost = {name: round(0.05 * minutes) for name, minutes in takes.items()}
        tasks.append(Task(plate=plate, takes_min=takes, lost_min=lost, rank=int(rng.integers(0, 3)), after=(1,)))
    return tasks, shop


def test_forty_plates_on_five_printers_come_within_three_percent_of_the_bound() -> None:
    """The search ends by counted work; what it finds is proved apart."""
    tasks, shop = _large(2)
    answer = solved(tasks, shop)

    assert proved(answer.placed, tasks, shop) == ()
    assert 0 <= answer.gap_percent <= 3.0


def test_the_same_shop_gets_the_same_calendar() -> None:
    """One worker, a seed and limits in the solver's own time: nothing depends on the clock."""
    tasks, shop = _large(5)

    assert solved(tasks[:12], shop) == solved(tasks[:12], shop)


def test_the_proof_finds_what_is_planted() -> None:
    """A plate moved into the night, onto another, into quiet hours or before its first article is found."""
    tasks, shop = _small(2)
    shop = Shop(change_min={"one": 60}, attended=((0, 600), (1440, 2040)), quiet=((500, 560),))
    tasks = [Task(plate=1, takes_min={"one": 120}), Task(plate=2, takes_min={"one": 120}, rank=1, after=(1,))]
    good = (
        PrintRun(plate=1, printer="one", start_min=0, end_min=120, clear_min=120, free_min=180),
        PrintRun(plate=2, printer="one", start_min=180, end_min=300, clear_min=300, free_min=360),
    )

    assert proved(good, tasks, shop) == ()
    for change, word in (
        ((550, 670, 1440, 1500), "unattended"),
        ((450, 570, 1440, 1500), "quiet"),
        ((100, 220, 220, 280), "at once"),
        ((120, 240, 240, 300), "looked at"),
        ((700, 820, 1440, 1500), "nobody is there"),
        ((180, 240, 240, 300), "another time"),
    ):
        start, end, clear, free = change
        bad = replace(good[1], start_min=start, end_min=end, clear_min=clear, free_min=free)
        assert any(word in sentence for sentence in proved((good[0], bad), tasks, shop)), word


def test_spans_and_work_on_them() -> None:
    """Windows that meet over midnight are one; work rests outside them; quiet hours are cut out."""
    week = (Attended(days=(1,), from_min=1320, to_min=1440), Attended(days=(2,), from_min=0, to_min=60))
    spans = spans_of(week, datetime(2026, 12, 1, 17, 30))  # a Tuesday

    assert spans[0] == (270, 450)
    assert worked(((0, 60), (100, 200)), 30, 50) == 120
    assert without(((0, 100),), ((10, 20), (90, 200))) == ((0, 10), (20, 90))


def test_a_weak_bound_is_lifted_to_within_three_percent() -> None:
    """Five plates of which an evening holds one end on the fifth evening at the earliest: by hand 4 x 1440 + 160 minutes."""
    tasks = [Task(plate=plate, takes_min={"p": 160}) for plate in range(1, 6)]
    shop = Shop(change_min={"p": 15}, attended=tuple((day * 1440, day * 1440 + 300) for day in range(20)))
    finish = 4 * 1440 + 160

    assert finish / 1.03 <= _lifted(tasks, Judge((), shop), 0, finish) <= finish
