"""Pull and grip at one place against levers worked out by hand (law of the lever, textbook, from memory)."""

from __future__ import annotations

import math

import pytest

from planner.mechanism.force.balance import Balance

Z = (0.0, 0.0, 1.0)
A, B = 12.0, 60.0
"""Arms of cord and grip in mm."""


def lever(rest_n_mm: float = 0.0, pin_mm: float = 0.0) -> Balance:
    """Return a lever whose cord and grip pull the same way on either side of its pin."""
    down = (0.0, -1.0, 0.0)
    return Balance(axis=Z, pull_mm=A, grip_mm=B, pull_force=down, grip_force=down, rest_n_mm=rest_n_mm, pin_mm=pin_mm)


def test_without_friction_a_lever_multiplies_by_its_arms() -> None:
    """P a = F b, either way round, and the pin carries both."""
    assert lever().pull_for_n(8.0, 0.0) == pytest.approx(8.0 * B / A)
    assert lever().grip_for_n(40.0, 0.0) == pytest.approx(8.0)
    assert lever().pin_force_n(40.0, 8.0) == pytest.approx((0.0, -48.0, 0.0))


@pytest.mark.parametrize("friction", [0.1, 0.3, 0.6])
def test_a_pin_takes_its_friction_circle_from_both_arms(friction: float) -> None:
    """With both forces on one side R = P + F, so P (a - mu r) = F (b + mu r): the friction circle."""
    c = friction * 2.5
    balance = lever(pin_mm=2.5)

    assert balance.pull_for_n(8.0, friction) == pytest.approx(8.0 * (B + c) / (A - c))
    assert balance.grip_for_n(40.0, friction) == pytest.approx(40.0 * (A - c) / (B + c))


def test_grip_and_pull_are_each_others_inverse() -> None:
    """Also with forces at an angle, elastics and weight."""
    balance = Balance(
        axis=Z,
        pull_mm=A,
        grip_mm=B,
        rest_n_mm=-70.0,
        pull_force=(0.8, -0.6, 0.1),
        grip_force=(0.0, -1.0, 0.0),
        rest_force_n=(-3.0, 4.0, 0.0),
        pin_mm=2.5,
    )
    for friction in (0.0, 0.2, 0.5):
        pull = balance.pull_for_n(6.0, friction)

        assert balance.grip_for_n(pull, friction) == pytest.approx(6.0, abs=1e-9)
        net = pull * A - 6.0 * B - 70.0
        x, y, _ = balance.pin_force_n(pull, 6.0)
        assert net == pytest.approx(friction * 2.5 * math.hypot(x, y), abs=1e-9)


def test_where_friction_holds_everything_no_pull_is_enough() -> None:
    """A pin so thick that mu r exceeds the cord's arm locks; a pull too weak for its own friction grips nothing."""
    assert lever(pin_mm=30.0).pull_for_n(1.0, 0.5) == math.inf
    assert lever(pin_mm=30.0).grip_for_n(50.0, 0.5) == 0.0


def test_a_joint_that_closes_by_itself_needs_no_pull() -> None:
    """A spring that closes gives its own grip."""
    assert lever(rest_n_mm=600.0).pull_for_n(8.0, 0.0) == 0.0
    assert lever(rest_n_mm=600.0).grip_for_n(0.0, 0.0) == pytest.approx(10.0)
