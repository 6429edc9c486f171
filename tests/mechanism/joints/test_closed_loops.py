"""Closed loops: a parallelogram by hand, slopes by differences, and what cannot close is not said to."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.finding import Vec3
from planner.mechanism.joints.closed_loops import ClosedLoops
from planner.mechanism.joints.moving_joint import MovingJoint

Z: Vec3 = (0.0, 0.0, 1.0)
WAYS = [(0, -1, 0, 1.0), (1, 0, 0, 1.0), (2, 1, 1, 1.0), (3, 0, 2, 1.0)]


def _joint(name: str, at: Vec3, kind: str = "turns", axis: Vec3 = Z) -> MovingJoint:
    """Return a joint."""
    return MovingJoint(name=name, parts=("a", "b"), kind=kind, axis=axis, at_mm=at)  # type: ignore[arg-type]


def _four_bar(coupler_end: Vec3 = (80.0, 30.0, 0.0)) -> ClosedLoops:
    """Return base, crank, coupler and rocker, drawn upright; the last joint closes the loop."""
    joints = [
        _joint("crank", (0.0, 0.0, 0.0)),
        _joint("knee", (0.0, 30.0, 0.0)),
        _joint("rocker", (80.0, 0.0, 0.0)),
        _joint("close", coupler_end),
    ]
    return ClosedLoops(joints, WAYS, [(0, 1), (1, 2), (0, 3), (3, 2)])


@pytest.mark.parametrize("deg", [-40.0, 5.0, 35.0])
def test_a_parallelogram_keeps_its_coupler_upright(deg: float) -> None:
    """The crank turned by an angle: the rocker by the same, the knee back by it, its corner on a circle of 30 mm."""
    loops, q = _four_bar(), np.zeros(3)
    for step in np.linspace(0.0, deg, 10):
        found = loops.closed({0: float(step)}, q)
        assert found is not None
        q = found
    coupler = loops.bodies(q)[2]

    assert q == pytest.approx((deg, -deg, deg), abs=1e-5)
    assert coupler[:3, :3] == pytest.approx(np.eye(3), abs=1e-6)
    corner = coupler @ [80.0, 30.0, 0.0, 1.0]
    turn = math.radians(deg)
    assert corner[:2] == pytest.approx((80.0 - 30.0 * math.sin(turn), 30.0 * math.cos(turn)), abs=1e-5)


def test_the_closing_joint_can_lead_and_its_value_is_read_off_the_bodies() -> None:
    """In a parallelogram it turns back as far as the rocker turns: led to -20 degrees, the crank stands at 20."""
    loops = _four_bar()
    q = loops.closed({3: -20.0}, np.zeros(3))
    assert q is not None

    assert q[0] == pytest.approx(20.0, abs=1e-5)
    bodies = loops.bodies(q)
    assert [loops.value(n, bodies) for n in range(4)] == pytest.approx([20.0, -20.0, 20.0, -20.0], abs=1e-5)


def test_slopes_are_those_of_differences() -> None:
    """At an open state, central differences of the gape in every joint agree with the slopes."""
    loops, q = _four_bar(), np.array([12.0, -30.0, 7.0])
    for target in ({}, {3: 15.0}):
        _, slopes = loops._gape(q, target)
        for n in range(3):
            step = 1e-4 * np.eye(3)[n]
            numeric = (loops._gape(q + step, target)[0] - loops._gape(q - step, target)[0]) / 2e-4

            assert slopes[:, n] == pytest.approx(numeric, abs=1e-6)


def test_what_cannot_close_is_no_answer() -> None:
    """All joints of the tree held where the loop gapes: None; held where it closes, they stay."""
    loops = _four_bar()

    assert loops.closed({0: 20.0, 1: 20.0, 2: 20.0}, np.zeros(3)) is None
    assert loops.closed({0: 20.0, 1: -20.0, 2: 20.0}, np.zeros(3)) == pytest.approx((20.0, -20.0, 20.0))


def test_a_joint_that_slides_moves_along_its_axis_alone() -> None:
    """5 mm along (0.6, 0.8, 0): a shift without a turn, read back as 5; against its sense -5."""
    joints = [_joint("slide", (3.0, 0.0, 0.0), "slides", (0.6, 0.8, 0.0))]
    for sense in (1.0, -1.0):
        loops = ClosedLoops(joints, [(0, -1, 0, 1.0), (1, 0, 0, sense)], [(0, 1)])
        bodies = loops.bodies(np.array([5.0]))

        assert bodies[1][:3, 3] == pytest.approx((sense * 3.0, sense * 4.0, 0.0))
        assert bodies[1][:3, :3] == pytest.approx(np.eye(3))
        assert loops.value(0, bodies) == pytest.approx(sense * 5.0)
