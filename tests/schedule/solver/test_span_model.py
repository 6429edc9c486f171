"""Bounds: what the relaxation calls impossible is so, by the exact model and by a second engine."""

from __future__ import annotations

import numpy as np
import pytest
from ortools.sat.python import cp_model

from planner.schedule import Shop, Task, solved
from planner.schedule.solver.branching import none_by_branching
from planner.schedule.solver.dispatch import in_order
from planner.schedule.solver.solve import SEED
from planner.schedule.solver.span_model import SpreadModel


def _shop(seed: int) -> tuple[list[Task], Shop]:
    """Return six plates with ranks on two printers that run on unattended, over evenings and weekends."""
    rng = np.random.default_rng(seed)
    names = ["one", "two"]
    spans = tuple((day * 1440, day * 1440 + int(rng.integers(90, 400))) for day in range(12))
    tasks = [
        Task(
            plate=plate,
            takes_min={name: int(rng.integers(20, 600)) for name in names[: 1 + int(rng.random() < 0.7)]},
            lost_min=dict.fromkeys(names, int(rng.integers(0, 20))),
            rank=int(rng.integers(0, 3)) if plate > 1 else 0,
            after=(1,) if plate > 1 and seed % 2 else (),
        )
        for plate in range(1, 7)
    ]
    return tasks, Shop(change_min=dict.fromkeys(names, 15), attended=spans, unattended=True, people_n=2)


@pytest.mark.parametrize("seed", range(12))
def test_the_relaxation_never_denies_a_calendar_that_exists(seed: int) -> None:
    """At the finish of the exact model there is a spread, by either engine; what is denied lies below that finish."""
    tasks, shop = _shop(seed)
    answer = solved(tasks, shop)
    ordered = in_order(tasks)

    assert answer.finish_min == answer.bound_min
    assert not SpreadModel(ordered, shop, answer.finish_min).never(1.0, SEED)
    assert not none_by_branching(SpreadModel(ordered, shop, answer.finish_min).model)
    assert SpreadModel(ordered, shop, answer.finish_min).found(1.0, SEED)[0]
    assert SpreadModel(ordered, shop, answer.finish_min // 3).never(1.0, SEED)


@pytest.mark.parametrize("seed", range(20))
def test_both_engines_agree_on_whether_there_is_an_answer(seed: int) -> None:
    """Random models of literals, sums, conditions and negations: HiGHS by linear rows says what CP-SAT says."""
    rng = np.random.default_rng(seed)
    model = cp_model.CpModel()
    literals = [model.new_bool_var("") for _ in range(12)]

    def some() -> cp_model.LiteralT:
        """Return a literal, or its negation."""
        one = literals[int(rng.integers(12))]
        return one if rng.random() < 0.5 else ~one

    for _ in range(16):
        model.add_implication(some(), some())
        sums = sum(int(rng.integers(1, 9)) * y for y in literals)
        model.add(sums >= int(rng.integers(15, 40))).only_enforce_if(some(), some())
        model.add(sums <= int(rng.integers(5, 40))).only_enforce_if(some())
    model.add_exactly_one(literals[:5])
    status = cp_model.CpSolver().solve(model)

    assert none_by_branching(model) == (status == cp_model.INFEASIBLE)
