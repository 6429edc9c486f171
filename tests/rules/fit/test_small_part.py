"""``part.small``: a cube and a rod against the cylinder of 16 CFR 1501, by plane geometry."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest

from planner.finding import Verdict
from planner.rules.fit.small_part import (
    CYLINDER_MM,
    DEEPEST_MM,
    HardwareSmall,
    PartSmall,
    largest_small,
    small_hardware,
)
from tests.conftest import MakeJob
from tests.shapes import cuboid


def _box(x: float, y: float, z: float) -> np.ndarray:
    """Return the corners of a box."""
    return np.array(list(itertools.product((0.0, x), (0.0, y), (0.0, z))))


def test_a_long_rod_may_fit_until_it_is_too_long() -> None:
    """A rod of 5 x 5 x 60 mm fits to the brim at about 57.15/60, a little more on the slant; never less than upright."""
    found = largest_small(_box(5, 5, 60))

    assert DEEPEST_MM / 60 * 0.99 <= found <= math.hypot(DEEPEST_MM, CYLINDER_MM) / 60


def test_a_cube_may_fit_until_its_diagonal_is_as_wide_as_the_bore() -> None:
    """Standing, a cube of 20 mm has a diagonal of 28.28 mm: it fits up to 31.75/28.28; no pose is 3 % better.

    The narrowest cylinder round a cube of edge a is a sqrt(2) wide (its hexagonal shadow needs a sqrt(8/3)).
    """
    assert largest_small(_box(20, 20, 20)) == pytest.approx(CYLINDER_MM / (20 * math.sqrt(2)), rel=0.03)


def test_the_verdict_turns_where_the_part_just_fits() -> None:
    """A hold at and below that size, go above it, and the rule names that size as its only turn."""
    rule = PartSmall(part="a", most=1.1)

    assert rule.turns() == (1.1,)
    assert [rule.at(s).verdict for s in (0.5, 1.1, 1.1001)] == [Verdict.HOLD, Verdict.HOLD, Verdict.GO]
    assert rule.at(1.0).remedy
    assert not rule.at(1.2).remedy


JOB = (
    '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n[[hardware]]\nname = "nut"\n'
    'kind = "nut"\ndiameter_mm = 3.0\njoins = ["a"]\n[[hardware]]\nname = "rod"\nkind = "dowel-pin"\ndiameter_mm = 4.0\n'
    'joins = ["a"]\nstack_mm = 60.0\n[[hardware]]\nname = "belt"\nkind = "belt"\ndiameter_mm = 6.0\njoins = ["a"]\n'
)


@pytest.mark.parametrize("use", ["recipient_age_years = 2.0", "mouthing = true"])
def test_a_bought_piece_that_comes_loose_holds_for_a_small_child(make_job: MakeJob, use: str) -> None:
    """A nut M3 is no printed part, and was not looked at; a pin of 60 mm stands out of 57.15, a belt is a loop."""
    rules = small_hardware(make_job(f"{JOB}[use]\n{use}\n", a=cuboid(60, 40, 40)))

    assert [(rule.feature, rule.at(1.0).verdict) for rule in rules] == [("nut", Verdict.HOLD), ("rod", Verdict.GO)]


def test_bought_pieces_are_not_asked_about_for_others(make_job: MakeJob) -> None:
    """Nobody under three, and nothing goes into the mouth: no word."""
    assert small_hardware(make_job(f"{JOB}[use]\nrecipient_age_years = 30.0\n", a=cuboid(60, 40, 40))) == []


def test_a_pin_is_small_until_it_is_longer_than_the_cylinder_is_deep() -> None:
    """A pin of 50 mm grows with its stack: past 57.15 / 50 it does not fit."""
    rule = HardwareSmall(part="a", feature="pin", alone_mm=50.0)

    assert rule.turns() == (DEEPEST_MM / 50.0,)
    assert [rule.at(s).verdict for s in (1.14, 1.15)] == [Verdict.HOLD, Verdict.GO]
