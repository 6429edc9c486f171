"""A joint takes its name and numbers from the job; copies that a statement covers too say which they are."""

from __future__ import annotations

import pytest

from planner.job import Joint
from planner.mechanism.joints.moving_joint import joint_name, made

SAID = Joint(
    between=("deck", "jaw"), copies=("deck", "jaw"), how="turns", name="pivot", needs_deg=(-3.0, 25.0), rest_deg=1.0
)


def test_what_is_stated_goes_into_the_joint() -> None:
    """Needs and rest are those of the job, the axis is a unit vector."""
    joint = made(("deck", "jaw"), SAID, "turns", (0.0, 0.0, 2.0), at_mm=(1.0, 2.0, 3.0), why="stated")

    assert (joint.name, joint.needs_deg, joint.rest_deg) == ("pivot", (-3.0, 25.0), 1.0)
    assert joint.axis == pytest.approx((0.0, 0.0, 1.0))


def test_other_copies_are_named() -> None:
    """A name is that of the copies that it is stated of; without one both copies are named."""
    assert joint_name(("deck", "jaw#2"), SAID) == "pivot (deck to jaw#2)"
    assert joint_name(("deck", "jaw"), None) == "deck to jaw"
