"""Stops: only what is open between two known ends is gone over."""

from __future__ import annotations

import math

import pytest

from planner.mechanism.range import joint_stop
from planner.mechanism.range.boxes_on_way import course_of
from planner.mechanism.range.joint_motion import JointMotion
from planner.mechanism.range.joint_range import JointRange, Stop
from planner.mechanism.range.two_bodies import Meeting
from tests.mechanism.invented import devices
from tests.shapes import Manifold

HINGE = devices()[0]
KNOWN = Stop(at_deg=40.0, what="meets", parts=("base", "arm"))


@pytest.mark.parametrize(("free", "ways"), [(0.0, [0.0, 10.8, 36.0]), (15.0, [15.0, 36.0]), (40.0, [])])
def test_nothing_is_gone_over_before_one_end_nor_beyond_the_other(
    monkeypatch: pytest.MonkeyPatch, free: float, ways: list[float]
) -> None:
    """A larger device stops at 40 degrees and a smaller goes to ``free``: what lies between is tried, and nothing else."""
    tried: list[tuple[float, float]] = []
    monkeypatch.setattr(joint_stop, "first_meeting", lambda _, __, way, *___: tried.append(way))
    cube = Manifold.cube((1, 1, 1))
    motion = JointMotion(HINGE.mechanism(), "base to arm", {})
    met = Meeting(names=("base", "arm"), groups=(0, 1), one=cube, other=cube)

    stop = joint_stop.stop_on(motion, HINGE.joints[0], [met], (free, 360.0), 0.0, KNOWN, course_of(motion, 0.0, 360.0))

    assert stop is KNOWN
    assert [way[0] for way in tried] == pytest.approx(ways)
    assert all(free <= low < high <= 40.0 for low, high in tried)


def test_a_joint_is_known_to_go_as_far_as_in_a_smaller_device() -> None:
    """What stops nowhere in a smaller device stops nowhere."""
    motion = JointMotion(HINGE.mechanism(), "base to arm", {})
    inner = JointRange(joint="base to arm", free_deg=(-20.0, None), stops=())

    assert joint_stop.known_free(motion, None) == (0.0, 0.0)
    assert joint_stop.known_free(motion, inner) == (-20.0, math.inf)
