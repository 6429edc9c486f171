"""The covering by fillings: it never denies what exists, finds what the exact model finds, and closes nights."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest

from planner.schedule import Shop, Task, proved, solved
from planner.schedule.solver.covering import Covering
from planner.schedule.solver.dispatch import in_order
from planner.schedule.solver.fillings import Item, TooMany, fillings, fits
from planner.schedule.solver.solve import unmet
from tests.schedule.solver.test_solve import _best, _large, _small


def _odd(seed: int) -> tuple[list[Task], Shop]:
    """Return five plates up to a day and a half long, with quiet hours, waits, watched plates and such that stay."""
    rng = np.random.default_rng(seed)
    names = ["one", "two"]
    spans = tuple(
        (day * 1440 + int(rng.integers(0, 90)), day * 1440 + int(rng.integers(120, 500))) for day in range(16)
    )
    quiet = tuple((day * 1440 + 700, day * 1440 + 760) for day in range(16)) if seed % 4 == 1 else ()
    tasks = [
        Task(
            plate=plate,
            takes_min={name: int(rng.integers(20, 2000 if seed % 3 == 0 and not quiet else 400)) for name in names},
            lost_min=dict.fromkeys(names, int(rng.integers(0, 60))),
            rank=int(rng.integers(0, 3)) if plate > 1 else 0,
            after=(1,) if plate > 1 and seed % 2 else (),
            stay="moving" if seed % 5 == 0 and plate in (2, 4) else "",
            watched=seed % 7 == 0 and plate == 3,
        )
        for plate in range(1, 6)
    ]
    change = {"one": 10, "two": 25}
    return tasks, Shop(change_min=change, attended=spans, quiet=quiet, unattended=True, people_n=1 + seed % 2)


@pytest.mark.parametrize("seed", range(40))
def test_no_calendar_that_exists_is_denied(seed: int) -> None:
    """At the finish of the exact model the linear form denies nothing, and the search finds a covering."""
    tasks, shop = _odd(seed)
    tasks = [task for task in tasks if task.key not in unmet(tasks, shop)]
    answer = solved(tasks, shop)
    covering = Covering(in_order(tasks), shop, answer.finish_min)

    assert covering.known
    assert not covering.never()
    assert covering.found(1000)[0]


@pytest.mark.parametrize("seed", range(0, 18, 3))
def test_the_bound_lies_below_exhaustive_search(seed: int) -> None:
    """Every finish that is denied is earlier than the best of all calendars tried one by one."""
    tasks, shop = _small(seed)
    best = _best(tasks, shop)
    assert shop.unattended
    assert best is not None
    denied = [limit for limit in range(30, best[0] + 300, 60) if Covering(in_order(tasks), shop, limit).never()]

    assert denied
    assert max(denied) < best[0]


def test_nights_are_closed_within_three_percent() -> None:
    """Forty plates that run on unattended on five printers: the bound was half the plan before (seed 3)."""
    tasks, shop = _large(3, unattended=True)
    answer = solved(tasks, shop)

    assert proved(answer.placed, tasks, shop) == ()
    assert 0 <= answer.gap_percent <= 3.0


def test_fillings_are_all_sets_that_fit() -> None:
    """Against every combination, with plates that may start late only."""
    rng = np.random.default_rng(4)
    items = [
        Item(key=(0, k), takes_min=int(rng.integers(20, 120)), first=int(rng.integers(0, 2)) * 70, lost_min=0)
        for k in range(8)
    ]
    every = {some for n in range(1, 9) for some in combinations(range(8), n) if fits([items[k] for k in some], 260)}

    assert {tuple(sorted(item.key[1] for item in some)) for some in fillings(items, 260, 1000)} == every
    with pytest.raises(TooMany):
        fillings(items, 260, len(every) - 1)


def test_what_is_too_large_denies_nothing() -> None:
    """Short plates in long spans have too many fillings: the question is not asked, and nothing is proved."""
    tasks = [Task(plate=k, takes_min={"one": 10}) for k in range(30)]
    shop = Shop(change_min={"one": 1}, attended=((0, 400), (1440, 1800)), unattended=True)
    covering = Covering(tasks, shop, 300)

    assert not covering.known
    assert not covering.never()
    assert covering.found(10) == ({}, False)
