"""Forces in the joints of linkages against statics by hand (textbook, from memory)."""

from __future__ import annotations

import math

import pytest

from planner.mechanism.force.point_load import PointLoad
from planner.mechanism.force.reactions import Bearing, reactions_n, rubbing_n_mm

Z = (0.0, 0.0, 1.0)


def pin(one: int, other: int, x: float, y: float, **more: float) -> Bearing:
    return Bearing(bodies=(one, other), axis=Z, at_mm=(x, y, 0.0), **more)  # type: ignore[arg-type]


def load(x: float, y: float, fx: float, fy: float) -> PointLoad:
    return PointLoad(copy="", at_mm=(x, y, 0.0), force_n=(fx, fy, 0.0))


def test_a_lever_presses_on_its_pin_with_both_forces() -> None:
    """5 N at 60 mm are held by 25 N at 12 mm on the other side: the pin carries 30 N up."""
    forces = reactions_n([pin(0, 1, 0, 0)], [(1, load(60, 0, 0, -5)), (1, load(-12, 0, 0, -25))], 0)

    assert forces[0] == pytest.approx((0.0, 30.0, 0.0), abs=1e-9)


def test_a_link_carries_along_itself() -> None:
    """Crank, link and slide in balance: the link's pins carry F / cos(slope) along it, the crank's pin as much."""
    alpha = math.atan2(20.0, 50.0)  # from (0, 20) down to (50, 0)
    push = 40.0
    along = push / math.cos(alpha)
    bearings = [
        pin(0, 1, 0, 0),
        pin(1, 2, 0, 20),
        pin(2, 3, 50, 0),
        Bearing(bodies=(0, 3), axis=(1.0, 0.0, 0.0), at_mm=(50.0, 0.0, 0.0), slides=True),
    ]
    # the crank stands upright: its moment 20 mm x (along cos) is held by a force at (0, 10)
    held = 20.0 * push / 10.0
    forces = reactions_n(bearings, [(3, load(50, 0, -push, 0)), (1, load(0, 10, held, 0))], 0)

    for k in (1, 2):
        assert math.hypot(*forces[k][:2]) == pytest.approx(along, rel=1e-9)
        assert forces[k][1] / forces[k][0] == pytest.approx(-math.tan(alpha), rel=1e-9)
    assert forces[3][1] == pytest.approx(along * math.sin(alpha), rel=1e-9)  # the slide's wall
    assert forces[3][0] == pytest.approx(0.0, abs=1e-9)


def test_a_pin_in_a_slot_presses_square_to_it_and_twists_nothing() -> None:
    """A yoke pushes back with 40 N: a crank's pin carries them along x whole, and its axle the same (textbook)."""
    x, y, push = 12.0, 16.0, 40.0
    bearings = [
        pin(0, 1, 0, 0),
        Bearing(bodies=(0, 2), axis=(1.0, 0.0, 0.0), at_mm=(0.0, 0.0, 0.0), slides=True),
        Bearing(bodies=(2, 1), axis=(0.0, 1.0, 0.0), at_mm=(x, y, 0.0), slides=True, about=Z),
    ]
    # the yoke's push at the pin turns the crank by 40 N x 16 mm: 64 N at 10 mm hold it
    forces = reactions_n(bearings, [(2, load(x, 0, -push, 0)), (1, load(0, 10, push * y / 10.0, 0))], 0)

    assert forces[2] == pytest.approx((-push, 0.0, 0.0), abs=1e-9)
    assert forces[0] == pytest.approx((push - push * y / 10.0, 0.0, 0.0), abs=1e-9)


def test_friction_counts_radius_turn_and_force_of_each_pin() -> None:
    """mu r N for a radian, for two pins of which the second turns twice as fast; what presses along the axis is left out."""
    bearings = [pin(0, 1, 0, 0, radius_mm=2.0), pin(1, 2, 9, 0, radius_mm=1.5, speed_ratio=-2.0)]

    assert rubbing_n_mm(bearings, [(3.0, 4.0, 7.0), (0.0, 6.0, 0.0)], 0.25) == pytest.approx(0.25 * (10.0 + 18.0))
