"""A movement is asked at any size; what is not known of a joint is told, not guessed."""

from __future__ import annotations

import math
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from planner.finding import Verdict
from planner.job import Edit, read_job, with_edits
from planner.mechanism import JointRange, MovingJoint, Stop, ranges_of
from planner.mechanism.movement import movement
from planner.mechanism.range.joint_range import Ranges, at_size
from planner.plan import prepare, prepare_rebored
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


def test_a_cord_along_the_base_stops_the_arm_and_padding_is_named(tmp_path: Path) -> None:
    """A cord of 2 mm lies along y = 8 at the arm's height: its tip's corner meets it at 40 sin t + 4 cos t = 7."""
    cord = (
        '[[cord]]\nname = "stay"\npart = "base"\ndiameter_mm = 2.0\n'
        'path = ["base:[25, 8, 8.9]", "base:[50, 8, 8.9]"]\n'
        '[[padding]]\npart = "base"\nthickness_mm = 3.0\narea_mm2 = 100.0\n'
    )
    ready = prepare(read_job(hinge(tmp_path, NEEDS + cord)), date(2026, 11, 29))
    assert ready.movement is not None
    moved = ready.movement.at(1.0)
    (joint,) = moved.joints

    meets = math.degrees(math.asin(7.0 / math.hypot(40.0, 4.0)) - math.atan2(4.0, 40.0))
    assert joint.free_deg[1] == pytest.approx(meets, abs=0.2)
    assert joint.stops[-1].parts == ("the cord stay", "arm")
    (found,) = (rule.at(1.0) for rule in ready.moves if rule.feature == "base to arm")
    assert found.verdict is Verdict.HOLD
    assert "arm meets the cord stay" in found.why
    assert any("the padding of base, 3 mm thick" in note for note in moved.notes)


def test_an_answer_is_kept(tmp_path: Path) -> None:
    """Asked twice at one size, nothing is turned again."""
    ready = prepare(read_job(hinge(tmp_path, NEEDS)), date(2026, 11, 29))
    assert ready.movement is not None
    assert ready.movement.at(1.3) is ready.movement.at(1.3)


def test_the_way_of_what_slides_is_told_at_size() -> None:
    """Ten drawn millimetres are 15 at 150 %; an angle is the same at every size."""
    stop = Stop(at_deg=10.0, what="meets", parts=("rail", "slider"))
    for kind, end in (("slides", 15.0), ("turns", 10.0)):
        joint = MovingJoint(
            name="way",
            parts=("rail", "slider"),
            kind=kind,  # type: ignore[arg-type]
            axis=(1.0, 0.0, 0.0),
            at_mm=(0.0, 0.0, 0.0),
        )
        found = at_size(joint, JointRange(joint="way", free_deg=(None, 10.0), stops=(stop,)), 1.5)
        assert found.free_deg == (None, end)
        assert found.stops[0].at_deg == end


def test_re_boring_leaves_the_mechanism_as_it_is(tmp_path: Path) -> None:
    """Openings are cut again, and what is said of movement at that size stays; once every joint became a hold."""
    ready = prepare(read_job(hinge(tmp_path, NEEDS)), date(2026, 11, 29))
    _, after = prepare_rebored(ready)
    said = [(rule.rule, rule.at(1.0).verdict, rule.at(1.0).why) for rule in after.moves]

    assert said == [(rule.rule, rule.at(1.0).verdict, rule.at(1.0).why) for rule in ready.moves]
    assert {verdict for _, verdict, _ in said} == {Verdict.GO}


def test_a_change_turns_nothing_that_it_does_not_touch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """After drilling a bore, or with another grip, no joint is turned again and all say the same; with another pin, all are."""
    ready = prepare(read_job(hinge(tmp_path, NEEDS)), date(2026, 11, 29))
    assert ready.movement is not None
    before, turned = ready.movement.at(1.0), list[int]()

    def counted(*one: Any, **two: Any) -> Ranges:
        turned.append(1)
        return ranges_of(*one, **two)

    monkeypatch.setattr(movement, "ranges_of", counted)
    drilled = Edit(table="work", name="", put={"part": "arm", "kind": "drill", "to_mm": 5.3, "bores": ["b1"]})

    for edit in (drilled, Edit(table="use", put={"grip_n": 3.0})):
        after = ready.movement.after(with_edits(ready.job, [edit]), ready.downs)
        assert after is not None
        assert [joint.free_deg for joint in after.at(1.0).joints] == [joint.free_deg for joint in before.joints]
    assert turned == []

    thicker = with_edits(ready.job, [Edit(table="hardware", name="pin", put={"diameter_mm": 5.2})])
    other = ready.movement.after(thicker, ready.downs)
    assert other is not None
    assert other.at(1.0).joints
    assert turned != []
