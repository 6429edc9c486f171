"""Joints that a loop takes along: a parallelogram's by hand, over the span of the one that leads."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from planner.mechanism.joints.linkage import linkage_of
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.joints.rigid_groups import rigid_groups
from planner.mechanism.range.followers import followers
from planner.mechanism.range.joint_motion import JointMotion


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
