"""How far closed loops go by themselves: random four-bars against the triangle's inequality at their limits."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from planner.mechanism.range.joint_motion import JointMotion
from tests.mechanism.invented import Device, turns
from tests.shapes import cuboid

GRID_DEG = 0.02


@pytest.mark.parametrize("seed", range(5))
def test_a_four_bar_locks_where_coupler_and_rocker_stretch_or_fold(seed: int) -> None:
    """The crank goes while the way from its pin to the rocker's is between |b - c| and b + c (from memory)."""
    rng = np.random.default_rng(seed)
    A, B, C, D = (complex(*rng.uniform(-40, 40, 2)) for _ in range(4))
    names = ("base", "crank", "coupler", "rocker")
    ends = (("base", "crank", A), ("crank", "coupler", B), ("coupler", "rocker", C), ("base", "rocker", D))
    joints = tuple(turns(one, other, at.real, at.imag) for one, other, at in ends)
    solids = dict.fromkeys(names, cuboid(1, 1, 1))
    device = Device(name="four-bar", solids=solids, joints=joints, ranges={"base to crank": (None, None)})
    motion = JointMotion(device.mechanism(), "base to crank", {})
    b, c = abs(C - B), abs(D - C)

    for sense in (1, -1):
        steps = np.arange(0.0, 360.0, GRID_DEG)
        ways = np.abs(A + (B - A) * np.exp(1j * np.radians(sense * steps)) - D)
        stuck = np.flatnonzero((ways > b + c) | (ways < abs(b - c)))
        far, locked = motion.end(sense * 360.0)
        assert locked == bool(len(stuck))
        assert far == pytest.approx(sense * (steps[stuck[0]] if len(stuck) else 360.0), abs=0.05)


def test_states_follow_each_other_without_a_jump() -> None:
    """Half a degree of the crank moves the rocker by little, all the way round."""
    from tests.mechanism.invented import four_bars

    device = next(four_bars())
    motion = JointMotion(device.mechanism(), "base to crank", {})
    values = [motion.values(deg)["base to rocker"] for deg in np.arange(0.0, 360.0, 8.0)]

    assert max(abs(math.remainder(b - a, 360.0)) for a, b in pairwise(values)) < 8.0
    assert math.remainder(motion.values(360.0)["base to rocker"] - values[0], 360.0) == pytest.approx(0.0, abs=1e-4)


def test_a_parallelogram_stays_one_through_the_line() -> None:
    """Where all its bars lie in line it could fold over; carried on, its rocker turns with its crank."""
    x, y = 25.0 * math.cos(math.radians(70.0)), 25.0 * math.sin(math.radians(70.0))
    joints = (
        turns("base", "crank", 0, 0),
        turns("crank", "coupler", x, y),
        turns("rocker", "coupler", 60.0 + x, y),
        turns("base", "rocker", 60.0, 0.0),
    )
    solids = dict.fromkeys(("base", "crank", "coupler", "rocker"), cuboid(1, 1, 1))
    device = Device(name="parallelogram", solids=solids, joints=joints, ranges={"base to crank": (None, None)})
    motion = JointMotion(device.mechanism(), "base to crank", {})
    assert motion.end(180.0) == (180.0, False)
    assert motion.end(-180.0) == (-180.0, False)
    assert motion.values(-170.0)["base to rocker"] == pytest.approx(-170.0, abs=0.05)


def test_what_follows_keeps_its_form_up_to_a_dead_point() -> None:
    """Crank 40, coupler 25, rocker 45 on 50 mm, asked first for its end: two degrees before it, by the law of cosines."""
    a, b, c, d, drawn = 40.0, 25.0, 45.0, 50.0, 60.0

    def rocker_deg(crank_deg: float) -> tuple[float, complex, complex]:
        pin = a * complex(math.cos(math.radians(crank_deg)), math.sin(math.radians(crank_deg)))
        way = abs(pin - d)
        lean = math.acos((c * c + way * way - b * b) / (2 * c * way))
        angle = math.atan2(pin.imag, pin.real - d) - lean
        return math.degrees(angle), pin, d + c * complex(math.cos(angle), math.sin(angle))

    at_rest, pin, end = rocker_deg(drawn)
    joints = (
        turns("base", "crank", 0.0, 0.0),
        turns("crank", "coupler", pin.real, pin.imag),
        turns("rocker", "coupler", end.real, end.imag),
        turns("base", "rocker", d, 0.0),
    )
    solids = dict.fromkeys(("base", "crank", "coupler", "rocker"), cuboid(1, 1, 1))
    device = Device(name="double rocker", solids=solids, joints=joints, ranges={"base to crank": (None, None)})
    motion = JointMotion(device.mechanism(), "base to crank", {})
    far, locked = motion.end(90.0)

    assert locked
    assert far == pytest.approx(math.degrees(math.acos((a * a + d * d - (b + c) ** 2) / (2 * a * d))) - drawn, abs=0.02)
    for before in (2.0, 0.5):
        asked = far - before
        follows = rocker_deg(drawn + asked)[0] - at_rest
        assert motion.values(asked)["base to rocker"] == pytest.approx(follows, abs=0.05)
