"""The device on the page stands where the mechanism puts it, and moves as its joint does."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any, cast

import numpy as np
import pytest

from planner.job import read_job
from planner.output.drawing.device_view import STEPS_N, device_json, part_hues, plate_hues
from planner.output.line_drawing.copies_standing import standing_of
from planner.plan import Plan, make_plan, prepare
from tests.mechanism.hinge_job import JOINT, hinge


@pytest.fixture(name="plan", scope="module")
def _plan(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    folder: Path = tmp_path_factory.mktemp("hinge")
    return make_plan(prepare(read_job(hinge(folder, JOINT.format(low=-20, high=10))), date(2026, 11, 29)))


def _placed(plan: Plan, row: list[float], part: str) -> np.ndarray[Any, Any]:
    """Return a part's corners on the bed where a row of the page's matrix puts them."""
    at = np.reshape(row, (3, 4))
    solid = next(p.posed for p in plan.parts if p.part.name == part)
    return np.asarray(solid.vertices_mm @ at[:, :3].T + at[:, 3])


def test_copies_stand_as_drawn(plan: Plan) -> None:
    """Taken from the bed to its place, a part has the box of its mesh."""
    view = cast("dict[str, Any]", device_json(plan, standing_of(plan)))
    for copy in view["copies"]:
        drawn = next(p.sized for p in plan.parts if p.part.name == copy["part"])
        corners = _placed(plan, copy["at"], copy["part"])
        assert corners.min(axis=0) == pytest.approx(drawn.bounds_mm[0], abs=1e-3)
        assert corners.max(axis=0) == pytest.approx(drawn.bounds_mm[1], abs=1e-3)


def test_a_step_turns_the_arm_by_its_angle(plan: Plan) -> None:
    """The arm's far end goes round the axis by the step; the base stays."""
    view = cast("dict[str, Any]", device_json(plan, standing_of(plan)))
    joint = view["joints"][0]
    rest = next(copy["at"] for copy in view["copies"] if copy["name"] == "arm")
    far = int(np.argmax(_placed(plan, rest, "arm")[:, 0]))

    assert len(joint["steps"]) == STEPS_N + 1
    for step, moved in zip(joint["steps"], joint["moved"], strict=True):
        assert set(moved) <= {"arm"}
        at = _placed(plan, moved.get("arm", rest), "arm")[far]
        before = _placed(plan, rest, "arm")[far]
        angle = math.degrees(math.atan2(at[1], at[0]) - math.atan2(before[1], before[0]))
        assert (angle - step + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=0.05)


def test_a_joint_that_is_not_known_is_left_out(plan: Plan, monkeypatch: pytest.MonkeyPatch) -> None:
    """A turning pin whose part has no place is a hold; the device is shown without it."""
    movement = plan.movement
    assert movement is not None
    lost = replace(movement.mechanism, unsolved=("knob: nothing says where it is",))
    moving = replace(movement, mechanism=lost, known={})
    monkeypatch.setattr(Plan, "movement", moving)
    view = cast("dict[str, Any]", device_json(plan, standing_of(plan)))

    assert [joint.name for joint in moving.at(1.0).joints][-1] == "knob"
    assert view["joints"]
    assert "knob" not in [joint["name"] for joint in view["joints"]]


def test_every_plate_has_a_colour_and_every_part_a_number(plan: Plan) -> None:
    """Colour is never alone: the list names each part once, by the number and the colour that its picture has."""
    assert [number for number, _, _ in plate_hues(plan)] == [plate.number for plate in plan.plates]
    told = [(name, hue) for _, hue, parts in plate_hues(plan) for _, name in parts]
    assert dict(told) == part_hues(plan)
    assert len(told) == len(plan.parts)
