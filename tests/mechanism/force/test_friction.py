"""Friction of cords and wheels against textbook forms (from memory) and a hand result with a known answer."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from planner.job import read_limits
from planner.mechanism.cord.rubs import Rub
from planner.mechanism.force.friction import Friction, capstan_ratio, levels, rub_ratio, wheel_ratio


@pytest.mark.parametrize(
    ("bend_deg", "friction", "ratio"), [(90.0, 0.2, 1.3691), (180.0, 0.2, 1.8745), (180.0, 0.3, 2.5663)]
)
def test_capstan_numbers(bend_deg: float, friction: float, ratio: float) -> None:
    """e^(mu theta), worked out by hand."""
    assert capstan_ratio(math.radians(bend_deg), friction) == pytest.approx(ratio, abs=5e-5)


def test_a_wheel_balances_its_moments() -> None:
    """(k - 1) R = mu r N for every bend, with N from the triangle of both pulls; half round it is (1 + q) / (1 - q)."""
    for bend_deg in (20.0, 90.0, 150.0, 180.0, 270.0):
        bend, q = math.radians(bend_deg), 0.3 * 0.25
        k = wheel_ratio(bend, 0.25, 0.3)

        assert k - 1.0 == pytest.approx(q * math.sqrt(k * k + 1.0 - 2.0 * k * math.cos(bend)), abs=1e-12)
    assert wheel_ratio(math.pi, 0.25, 0.3) == pytest.approx((1 + q) / (1 - q))
    assert wheel_ratio(math.pi, 2.0, 0.6) == math.inf


def test_ratios_multiply_along_the_way_and_a_stuck_wheel_is_slid_over() -> None:
    """Two bends are one of their sum; where turning costs more than sliding, the cord slides."""
    bends = [Rub(number=1, bend_rad=0.5), Rub(number=2, bend_rad=0.7)]
    stuck = Rub(number=3, bend_rad=math.pi, axle_ratio=0.99)

    assert math.prod(rub_ratio(bend, Friction(cord_ratio=0.2)) for bend in bends) == pytest.approx(math.exp(0.2 * 1.2))
    assert rub_ratio(stuck, Friction(cord_ratio=0.1, pin_ratio=0.6)) == pytest.approx(math.exp(0.1 * math.pi))


def test_three_levels_of_friction_are_taken_from_the_limits() -> None:
    """Never one figure: least, expected, most, both coefficients at once."""
    limits = read_limits("standard", Path())
    low, expected, high = levels(limits.cord_friction, limits.pin_friction)

    assert low.cord_ratio < expected.cord_ratio < high.cord_ratio
    assert low.pin_ratio < expected.pin_ratio < high.pin_ratio
