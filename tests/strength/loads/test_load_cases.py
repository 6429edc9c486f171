"""Loads that are stated, and those that joints suggest."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from planner.job import Part
from planner.strength.loads.load_cases import guessed_cases, pin_case, stated_case
from planner.strength.loads.part_load import LoadCase, Support
from planner.survey import survey
from tests.shapes import bored_plate

BAR = survey(bored_plate(80, 10, 8, []))
PART = Part(name="a", mesh=Path("a.stl"), load_at_mm=(70.0, 5.0, 4.0))
HOLDS = tuple(Support(at_mm=(x, 5.0, 4.0), over=f"b{x:g}", axis=(0.0, 0.0, 1.0)) for x in (5.0, 25.0, 45.0))


def _balanced(case: LoadCase) -> bool:
    """Return whether all forces of a case sum to nothing."""
    return float(np.abs(np.sum([one.force_n for one in case.every], axis=0)).max()) < 1e-3


def test_a_stated_load_acts_across_the_axis_and_the_arm() -> None:
    """Along y for an arm along x and a bore along z; load_dir says otherwise where it is stated."""
    found = stated_case(PART, BAR, HOLDS[:1], 20.0)
    stated = stated_case(replace(PART, load_dir=(0.0, 0.0, 2.0)), BAR, HOLDS[:1], 20.0)

    assert found is not None
    assert stated is not None
    assert np.abs(found.force_n) == pytest.approx([0.0, 20.0, 0.0])
    assert stated.force_n == pytest.approx((0.0, 0.0, 20.0))
    assert not found.guessed
    assert stated_case(replace(PART, load_at_mm=None), BAR, HOLDS, 20.0) is None


def test_joints_suggest_loads_that_are_in_balance() -> None:
    """One joint: a lever. Two: a pull from one to the other. Three: each pushed in two ways across its bore."""
    cases = [guessed_cases(BAR, HOLDS[:n], 20.0) for n in range(4)]

    assert [len(each) for each in cases] == [0, 1, 1, 6]
    assert cases[2][0].force_n == pytest.approx((-20.0, 0.0, 0.0))
    assert all(case.guessed and _balanced(case) for each in cases for case in each)


def test_a_pin_bends_between_its_ends() -> None:
    """Pushed at its middle, in its thinner direction, half the load at either end."""
    case = pin_case(BAR, 20.0)

    assert np.abs(case.force_n) == pytest.approx([0.0, 0.0, 20.0])
    assert [abs(one.force_n[2]) for one in case.answers] == pytest.approx([10.0, 10.0], abs=1e-3)
