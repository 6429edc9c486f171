"""A balance through a loop of one lever is the balance of that lever; loops themselves are tested with their bearings."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planner.mechanism.force.balance import Balance
from planner.mechanism.force.loop_balance import LoopBalance
from planner.mechanism.force.point_load import PointLoad
from planner.mechanism.force.reactions import Bearing

Z = (0.0, 0.0, 1.0)


def lever(pin_mm: float = 2.5, rest_n_mm: float = 0.0) -> LoopBalance:
    """Return a lever of 12 and 60 mm whose cord pulls down on its short arm, the load on its long one."""
    smooth = Balance(axis=Z, pull_mm=12.0, grip_mm=60.0, rest_n_mm=rest_n_mm)
    return LoopBalance(
        smooth=smooth,
        bearings=(Bearing(bodies=(-1, 0), axis=Z, at_mm=(0.0, 0.0, 0.0), radius_mm=pin_mm, pin="pin"),),
        bodies={"lever": 0},
        stands=-1,
        pull=(PointLoad(copy="lever", at_mm=(-12.0, 0.0, 0.0), force_n=(0.0, -1.0, 0.0)),),
        grip=PointLoad(copy="lever", at_mm=(60.0, 0.0, 0.0), force_n=(0.0, -1.0, 0.0)),
        rest=(),
    )


def test_friction_of_the_pin_is_that_of_a_single_lever_within_its_square() -> None:
    """F (b + c) / (a - c) by the friction circle c = mu r; a loop's share agrees but for c²."""
    mu, c = 0.1, 0.25

    assert lever().pull_for_n(8.0, mu) == pytest.approx(8.0 * (60.0 + c) / (12.0 - c), rel=(c / 12.0) ** 2 * 2)
    assert lever().grip_for_n(lever().pull_for_n(8.0, mu), mu) == pytest.approx(8.0)
    assert lever().pin_forces_n(40.0, 8.0)[0] == pytest.approx((0.0, -48.0, 0.0), abs=1e-9)
    assert lever(pin_mm=300.0).pull_for_n(8.0, mu) == math.inf


def test_what_is_left_to_open_is_less_the_pins_friction() -> None:
    """An opening moment of 600 N mm, the tip held by 10 N: the pin carries these 10 N."""
    assert lever(rest_n_mm=-600.0).left_n_mm(0.2) == pytest.approx(600.0 - 0.2 * 2.5 * 10.0, rel=1e-2)
    assert lever(rest_n_mm=-600.0).grip_for_n(10.0, 0.2) == 0.0


def test_a_grip_far_larger_than_the_pull_is_found_too() -> None:
    """A jaw of 0.5 mm under a cord at 12 mm: 5 N without friction build up 120 N (moments: 5 · 12 / 0.5)."""
    short = replace(lever(), smooth=Balance(axis=Z, pull_mm=12.0, grip_mm=0.5, rest_n_mm=0.0))

    assert short.grip_for_n(5.0, 0.0) == pytest.approx(120.0, rel=1e-6)


def test_a_weight_that_rests_on_the_lever_loads_its_pin_too() -> None:
    """5 N down at 30 mm: F (12 - c) = 8 (60 + c) + 5 (30 + c), c = mu r as in the friction circle."""
    mu, c = 0.1, 0.25
    weight = PointLoad(copy="lever", at_mm=(30.0, 0.0, 0.0), force_n=(0.0, -5.0, 0.0))
    laden = replace(lever(rest_n_mm=-150.0), rest=(weight,))

    assert laden.pull_for_n(8.0, mu) == pytest.approx((8.0 * (60.0 + c) + 5.0 * (30.0 + c)) / (12.0 - c), rel=9e-4)
