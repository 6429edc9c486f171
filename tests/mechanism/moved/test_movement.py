"""A movement is asked at any size; what is not known of a joint is told, not guessed."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from planner.job import read_job
from planner.plan import prepare
from tests.mechanism.hinge_job import JOINT, hinge

NEEDS = JOINT.format(low=-20, high=10)


def test_a_joint_is_told_with_axis_place_and_least_gap(tmp_path: Path) -> None:
    """The axis stands upright on the bore; at 10 degrees the arm's side is 0.06 mm from the corner, by hand.

    The corner (22, 8) lies 8 cos 10° - 22 sin 10° = 4.058 mm beside the arm's middle line, its side 4.
    """
    ready = prepare(read_job(hinge(tmp_path, NEEDS)), date(2026, 11, 29))
    assert ready.movement is not None
    joint = ready.movement.at(1.0).joints[0]

    assert joint.axis == pytest.approx((0.0, 0.0, 1.0), abs=1e-6)
    assert joint.at_mm[:2] == pytest.approx((0.0, 0.0), abs=1e-3)
    assert joint.least_gap is not None
    assert joint.least_gap.gap_mm == pytest.approx(0.058, abs=0.005)
    assert joint.least_gap.at_deg == pytest.approx(10.0, abs=0.2)


def test_an_answer_is_kept(tmp_path: Path) -> None:
    """Asked twice at one size, nothing is turned again."""
    ready = prepare(read_job(hinge(tmp_path, NEEDS)), date(2026, 11, 29))
    assert ready.movement is not None
    assert ready.movement.at(1.3) is ready.movement.at(1.3)
