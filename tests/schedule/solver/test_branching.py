"""Branching: what it calls without an answer has none; every assignment is tried beside it."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from ortools.sat.python import cp_model

from planner.schedule.solver.branching import none_by_branching

LITERALS_N = 5


def _holes(pigeons_n: int, holes_n: int) -> cp_model.CpModel:
    """Return pigeons that each take a hole of their own."""
    model = cp_model.CpModel()
    sits = [[model.new_bool_var("") for _ in range(holes_n)] for _ in range(pigeons_n)]
    for row in sits:
        model.add_exactly_one(row)
    for column in zip(*sits, strict=True):
        model.add_at_most_one(column)
    return model


def test_seven_pigeons_find_no_six_holes() -> None:
    """The pigeonhole principle: none for seven in six, some for six in six."""
    assert none_by_branching(_holes(7, 6))
    assert not none_by_branching(_holes(6, 6))


@pytest.mark.parametrize("seed", range(3))
def test_it_agrees_with_trying_every_assignment(seed: int) -> None:
    """Twelve random models of five literals, with conditions and negations: without an answer exactly where none holds."""
    rng, said, true = np.random.default_rng(seed), [], []
    for _ in range(12):
        model = cp_model.CpModel()
        literals = [model.new_bool_var("") for _ in range(LITERALS_N)]
        checks = []
        for _ in range(7):
            columns, signs = rng.permutation(LITERALS_N)[:3], rng.random(3) < 0.5
            condition, wanted = int(rng.integers(LITERALS_N)), bool(rng.random() < 0.5)
            kind, most = int(rng.integers(4)), int(rng.integers(0, 2))
            picked = [literals[k] if sign else literals[k].negated() for k, sign in zip(columns, signs, strict=True)]
            if kind == 0:
                constraint = model.add(sum(picked) <= most)
            elif kind == 1:
                constraint = model.add_bool_or(picked)
            elif kind == 2:
                constraint = model.add_bool_and(picked[:2])
            else:
                constraint = model.add_exactly_one(picked)
            conditional = kind != 3 and bool(rng.random() < 0.5)
            if conditional:
                constraint.only_enforce_if(literals[condition] if wanted else literals[condition].negated())
            checks.append((kind, most, columns, signs, (condition, wanted) if conditional else None))
        said.append(none_by_branching(model))
        true.append(not any(_holds(checks, values) for values in product((False, True), repeat=LITERALS_N)))

    assert said == true
    assert {True, False} == set(true)


def _holds(
    checks: list[tuple[int, int, np.ndarray, np.ndarray, tuple[int, bool] | None]], values: tuple[bool, ...]
) -> bool:
    """Return whether an assignment keeps all constraints."""
    for kind, most, columns, signs, only in checks:
        if only is not None and values[only[0]] != only[1]:
            continue
        held = [values[k] == bool(sign) for k, sign in zip(columns, signs, strict=True)]
        kept = (sum(held) <= most, any(held), all(held[:2]), sum(held) == 1)[kind]
        if not kept:
            return False
    return True


def test_rows_about_minutes_are_left_out_so_that_nothing_false_is_said() -> None:
    """A minute that can be neither under 3 nor over 5 has no answer, but it is not asked about: not known."""
    model = cp_model.CpModel()
    minute, literal = model.new_int_var(0, 10, ""), model.new_bool_var("")
    model.add(minute <= 2)
    model.add(minute >= 6)
    model.add_bool_or([literal])

    assert not none_by_branching(model)


def test_a_constraint_of_another_kind_is_no_silent_yes() -> None:
    """An exclusive or has no linear form here: it is refused."""
    model = cp_model.CpModel()
    model.add_bool_xor([model.new_bool_var(""), model.new_bool_var("")])

    with pytest.raises(NotImplementedError, match="no linear form"):
        none_by_branching(model)
