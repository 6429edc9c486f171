"""Loads that are stated, and the worst that nobody has ruled out."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from planner.job import Part
from planner.strength.loads.load_cases import guessed_cases, known_case, pin_cases, stated_case
from planner.strength.loads.part_load import LoadCase, PartLoad, Support
from planner.survey import survey
from tests.shapes import bored_plate

BAR = survey(bored_plate(80, 10, 8, []))
PART = Part(name="a", mesh=Path("a.stl"), load_at_mm=(70.0, 5.0, 4.0))
HOLDS = tuple(Support(at_mm=(x, 5.0, 4.0), over=f"b{x:g}", axis=(0.0, 0.0, 1.0)) for x in (5.0, 25.0, 45.0))


def _balanced(case: LoadCase) -> bool:
    """Return whether all forces of a case sum to nothing."""
    return float(np.abs(np.sum([one.force_n for one in case.every], axis=0)).max()) < 1e-3


def test_a_stated_load_acts_as_it_is_stated() -> None:
    """20 N along load_dir at load_at_mm; without either of them nothing is stated."""
    found = stated_case(replace(PART, load_dir=(0.0, 0.0, 2.0)), HOLDS[:1], 20.0)

    assert found is not None
    assert found.force_n == pytest.approx((0.0, 0.0, 20.0))
    assert not found.asks
    assert stated_case(PART, HOLDS, 20.0) is None
    assert stated_case(replace(PART, load_at_mm=None, load_dir=(0.0, 0.0, 1.0)), HOLDS, 20.0) is None


def test_what_nothing_else_holds_is_cut_toward_each_of_its_loads() -> None:
    """Six pushes along a bar in balance: five ways from the first, the farthest too, not only to the nearest three."""
    pushes = [PartLoad(at_mm=(10.0 * n, 0.0, 0.0), force_n=(0.0, -5.0 if n == 0 else 1.0, 0.0)) for n in range(6)]

    assert {way[0][0] for way in known_case(pushes, (), "loads").ways} == {10.0, 20.0, 30.0, 40.0, 50.0}


def test_a_stated_place_leaves_its_direction_open() -> None:
    """At [70, 5, 4] in four directions across the arm along x; with load_dir alone its place is open."""
    found = guessed_cases(PART, BAR, HOLDS[:1], 20.0)
    along = guessed_cases(replace(PART, load_at_mm=None, load_dir=(0.0, 0.0, 1.0)), BAR, HOLDS[:1], 20.0)

    assert len(found) == 4
    assert all(case.pushes[0].at_mm == PART.load_at_mm and abs(case.force_n[0]) < 1e-9 for case in found)
    assert found[0].asks == "Which way does the load act on a? State load_dir of [[part]]."
    assert {case.force_n for case in along} == {(0.0, 0.0, 20.0)}


def test_a_load_that_nobody_placed_is_put_where_it_is_worst() -> None:
    """By hand: a lever is pushed at its free end, a link at its overhang and its middle, and pulled."""
    free = replace(PART, load_at_mm=None)
    cases = [guessed_cases(free, BAR, HOLDS[:n], 20.0) for n in range(4)]
    places = [{round(case.pushes[0].at_mm[0]) for case in each} for each in cases]

    assert places == [set(), {80}, {80, 15, 5}, {80, 5, 25, 45}]
    assert all(case.asks and _balanced(case) for each in cases for case in each)
    assert any(abs(case.force_n[0]) == pytest.approx(20.0) for case in cases[2])


def test_a_pin_that_both_ends_hold_bends_between_them() -> None:
    """Pushed at its middle, in its thinner direction, half the load at either end; nothing is asked."""
    (case,) = pin_cases(replace(PART, load_at_mm=None), BAR, 20.0, held=True)

    assert np.abs(case.force_n) == pytest.approx([0.0, 0.0, 20.0])
    assert [abs(one.force_n[2]) for one in case.answers] == pytest.approx([10.0, 10.0], abs=1e-3)
    assert not case.asks


def test_a_pin_may_stick_out_where_nothing_tells_that_both_ends_are_held() -> None:
    """20 N at 72 mm from what holds it: 1440 N mm, four times as much as between both; a stated place tells."""
    _, out = pin_cases(replace(PART, load_at_mm=None), BAR, 20.0, held=False)
    told = [pin_cases(replace(PART, load_at_mm=(x, 5.0, 4.0)), BAR, 20.0, held=False) for x in (40.0, 79.0)]

    assert abs(out.answers[0].couple_n_mm[1]) == pytest.approx(1440.0, rel=1e-3)
    assert "held at both ends" in out.asks
    assert [len(case.answers) for (case,) in told] == [2, 1]
    assert not any(case.asks for (case,) in told)
