"""Joints that a loop takes along: a parallelogram's by hand, over the span of the one that leads."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import pytest

from planner.mechanism.joints.linkage import linkage_of
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.joints.rigid_groups import rigid_groups
from planner.mechanism.range.followers import followers
from planner.mechanism.range.joint_motion import JointMotion
from planner.mechanism.range.joint_range import Stop
from tests.mechanism.invented import rocker_deg


def _turns(one: str, other: str, x: float, y: float) -> MovingJoint:
    """Return a joint that turns about z."""
    return MovingJoint(name=f"{one}-{other}", parts=(one, other), kind="turns", axis=(0.0, 0.0, 1.0), at_mm=(x, y, 0.0))


def test_a_parallelogram_takes_its_rocker_along_and_its_knees_back() -> None:
    """Crank from -30 to 50 degrees: the rocker over the same, both knees from -50 to 30; the crank's stops hold for all."""
    joints = [
        _turns("base", "crank", 0.0, 0.0),
        _turns("crank", "coupler", 0.0, 30.0),
        _turns("rocker", "coupler", 80.0, 30.0),
        _turns("base", "rocker", 80.0, 0.0),
    ]
    linkage = linkage_of(rigid_groups(("base", "crank", "coupler", "rocker"), joints), ("base-crank",))
    mechanism: Any = SimpleNamespace(linkage=linkage, joint=lambda name: next(j for j in joints if j.name == name))
    motion = JointMotion(mechanism, "base-crank", {})
    names = [joint.name for joint in joints[1:]]
    found = followers(mechanism, motion, joints[0], names, (-30.0, 50.0), ())

    assert list(found) == names
    assert found["base-rocker"].free_deg == pytest.approx((-30.0, 50.0), abs=1e-4)
    assert found["crank-coupler"].free_deg == pytest.approx((-50.0, 30.0), abs=1e-4)
    assert found["rocker-coupler"].free_deg == pytest.approx((-50.0, 30.0), abs=1e-4)
    assert {one.follows for one in found.values()} == {"base-crank"}


@pytest.mark.parametrize(
    ("a", "b", "c", "d", "drawn"), [(40, 30, 45, 80, 60), (50, 35, 45, 85, 50), (30, 30, 50, 70, 70)]
)
def test_a_rocker_is_told_right_at_the_dead_point_of_the_crank(
    a: float, b: float, c: float, d: float, drawn: float
) -> None:
    """Coupler and rocker lie in line: the law of cosines gives both angles; 0.01 degrees short the rocker is 0.5 off."""

    def pin(deg: float) -> tuple[float, float]:
        return a * math.cos(math.radians(deg)), a * math.sin(math.radians(deg))

    dead = math.degrees(math.acos((a * a + d * d - (b + c) ** 2) / (2 * a * d)))
    x, y = pin(dead)
    rocker, begun = math.degrees(math.atan2(y, x - d)) % 360.0, rocker_deg((a, b, c, d), drawn)
    knee = d + c * math.cos(math.radians(begun)), c * math.sin(math.radians(begun))
    joints = [
        _turns("base", "crank", 0.0, 0.0),
        _turns("crank", "coupler", *pin(drawn)),
        _turns("coupler", "rocker", *knee),
        _turns("base", "rocker", d, 0.0),
    ]
    linkage = linkage_of(rigid_groups(("base", "crank", "coupler", "rocker"), joints), ("base-crank",))
    mechanism: Any = SimpleNamespace(linkage=linkage, joint=lambda name: next(j for j in joints if j.name == name))
    motion = JointMotion(mechanism, "base-crank", {})
    end, locked = motion.end(180.0)
    names = [joint.name for joint in joints[1:]]
    found = followers(mechanism, motion, joints[0], names, (0.0, end), (Stop(at_deg=end, what="locked"),))

    assert locked
    assert end == pytest.approx(dead - drawn, abs=0.01)
    assert found["base-rocker"].free_deg[1] == pytest.approx(rocker - begun, abs=0.01)
