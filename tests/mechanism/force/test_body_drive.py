"""What the body gives."""

from __future__ import annotations

import pytest

from planner.job import Cord, Drive
from planner.mechanism.force.body_drive import drive_of, has_mm, range_doubt, usual_mm


def test_a_drive_that_is_not_measured_gives_nothing() -> None:
    """Neither arm nor range is guessed."""
    assert has_mm(Drive(joint="wrist", arm_mm=45.0)) is None
    assert has_mm(Drive(joint="wrist", range_deg=(-10.0, 35.0))) is None
    assert has_mm(Drive(joint="wrist", arm_mm=45.0, range_deg=(-10.0, 35.0))) == pytest.approx(35.34, abs=0.005)


def test_a_cord_that_another_joint_pulls_is_asked_about() -> None:
    """The job's one drive must be the one that the cord names."""
    cord = Cord(name="pull", part="deck", diameter_mm=1.0, drawn_from="elbow")

    assert drive_of(cord, Drive(joint="wrist")) == "pull is pulled from the elbow, and [drive] speaks of the wrist"
    assert drive_of(cord, Drive(joint="elbow")) == Drive(joint="elbow")
    assert "write [drive]" in str(drive_of(cord, None))


def test_more_than_people_have_is_doubted() -> None:
    """A wrist of 200 degrees is a slip, one of 120 is not, and a joint that no table knows is not judged."""
    assert "is it one of the two ends?" in range_doubt(Drive(joint="wrist", range_deg=(-100.0, 100.0)))
    assert range_doubt(Drive(joint="wrist", range_deg=(-60.0, 60.0))) == ""
    assert range_doubt(Drive(joint="knee", range_deg=(0.0, 300.0))) == ""


def test_the_functional_wrist_draws_in_as_much_as_people_were_asked_for() -> None:
    """80 degrees of functional wrist (Ryu et al. 1991) at 35 to 45 mm draw in 10 to 80 mm of cable.

    These are the excursions of a published experiment with body-powered devices: Hichert et al. 2019, doi
    10.1371/journal.pone.0225263, abstract.
    """
    for arm_mm in (35.0, 45.0):
        daily, most = usual_mm(Drive(joint="wrist", arm_mm=arm_mm)) or (0.0, 0.0)

        assert 10.0 < daily < 80.0
        assert most > daily
    assert usual_mm(Drive(joint="knee", arm_mm=40.0)) is None
