"""Axes as a survey finds them: rounding must not lock a linkage."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from planner.mechanism import LockedError, MovingJoint
from planner.mechanism.joints.linkage import Linkage, linkage_of
from planner.mechanism.joints.rigid_groups import rigid_groups
from planner.mechanism.joints.straight_axes import straight_axes
from tests.mechanism.invented import rocker_deg, turns

BARS = (20.0, 62.0, 45.0, 70.0)


def tilted(joint: MovingJoint, deg: float, about_deg: float) -> MovingJoint:
    """Return an upright joint leaning by an angle."""
    lean, way = math.radians(deg), math.radians(about_deg)
    axis = math.sin(lean) * math.cos(way), math.sin(lean) * math.sin(way), math.cos(lean)
    return replace(joint, axis=axis)


def four_bar(lean_deg: float, *, straight: bool) -> Linkage:
    """Return a crank and rocker drawn with its crank at 60 degrees, each axis leaning another way."""
    a, _, c, d = BARS
    t4 = math.radians(rocker_deg(BARS, 60.0))
    pin_a = a * math.cos(math.pi / 3), a * math.sin(math.pi / 3)
    pin_b = d + c * math.cos(t4), c * math.sin(t4)
    joints = [turns("base", "crank", 0, 0), turns("crank", "coupler", *pin_a)]
    joints += [turns("rocker", "coupler", *pin_b), turns("base", "rocker", d, 0)]
    leaning = [tilted(joint, lean_deg, 77.0 * n) for n, joint in enumerate(joints)]
    copies = ("base", "crank", "coupler", "rocker")
    return linkage_of(rigid_groups(copies, straight_axes(leaning) if straight else leaning), ("base to crank",))


@pytest.mark.parametrize("lean_deg", [1e-6, 0.2])
def test_a_real_four_bar_turns(lean_deg: float) -> None:
    """Its rocker follows Freudenstein's equation (1955, from memory) within 0.05 degrees all the way round."""
    linkage = four_bar(lean_deg, straight=True)
    for deg in (-170.0, -60.0, 35.0, 120.0, 180.0):
        expected = rocker_deg(BARS, 60.0 + deg) - rocker_deg(BARS, 60.0)
        assert linkage.values_at({"base to crank": deg})["base to rocker"] == pytest.approx(expected, abs=0.05)


def test_what_leans_much_locks() -> None:
    """Bores drawn 3 degrees out hold each other fast, as they do on the bench."""
    with pytest.raises(LockedError):
        four_bar(3.0, straight=True).values_at({"base to crank": 20.0})


def test_a_third_crank_is_no_lock() -> None:
    """Three parallel cranks, their pins rounded as a mesh rounds them, go together."""
    joints = []
    for n, x in enumerate((0.0, 30.0, 60.0)):
        joints += [turns("base", f"crank{n}", x, 0.0), turns(f"crank{n}", "bar", x + 12.0 + 2e-5 * n, 9.0 - 1e-5 * n)]
    copies = ("base", "crank0", "crank1", "crank2", "bar")
    linkage = linkage_of(rigid_groups(copies, straight_axes(joints)), ("base to crank0",))
    values = linkage.values_at({"base to crank0": 50.0})
    assert values["base to crank2"] == pytest.approx(50.0, abs=0.01)


def test_a_slide_is_square_to_the_pins() -> None:
    """A way that leaves the plane of its linkage by rounding is brought back; senses stay."""
    pins = [tilted(turns("base", "crank", 0, 0), 0.1, 30.0), turns("crank", "rod", 10, 0, -1.0)]
    slide = MovingJoint(name="way", parts=("base", "block"), kind="slides", axis=(1.0, 0.0, 0.004), at_mm=(0, 0, 0))
    one, other, way = straight_axes([*pins, slide])
    assert np.asarray(one.axis) @ np.asarray(other.axis) == pytest.approx(-1.0, abs=1e-12)
    assert np.asarray(one.axis) @ np.asarray(way.axis) == pytest.approx(0.0, abs=1e-12)
    assert other.axis[2] < 0 < way.axis[0]
