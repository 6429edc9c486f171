"""Hardware lies on the axis of its bores, its head where it can come in."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.output.line_drawing.copies_standing import Standing
from planner.output.line_drawing.hardware_solids import hardware_axes, hardware_body, headed
from planner.plan import Plan


def test_a_pin_lies_in_both_bores(hinge_plan: Plan, standing: Standing) -> None:
    """From the floor of the base's bore (z = 5 mm) to the arm's upper face (13.9 mm), on the z axis, as the files draw it."""
    (axis,) = hardware_axes(hinge_plan, standing)["pin"]
    ends = sorted(axis.ends_mm, key=lambda end: float(end[2]))
    assert ends[0] == pytest.approx([0, 0, 5.0], abs=0.05)
    assert ends[1] == pytest.approx([0, 0, 13.9], abs=0.05)
    assert axis.parts == {"base", "arm"}


def test_a_screw_is_as_wide_as_its_head_there(hinge_plan: Plan, standing: Standing) -> None:
    """Its body is the diameter wide in the bores and wider at the end where it comes in."""
    (axis,) = hardware_axes(hinge_plan, standing)["pin"]
    screw = replace(axis, hardware=replace(axis.hardware, kind="machine-screw"))
    points = hardware_body(screw, nut=False).points_mm
    along = (points - axis.ends_mm[0]) @ axis.way
    wide = np.linalg.norm(points - axis.ends_mm[0] - along[:, None] * axis.way, axis=1)
    assert wide[along > 0.1].max() == pytest.approx(2.5)
    assert wide[along < -0.1].max() > 4.0


def test_a_lid_turns_the_way_in(hinge_plan: Plan, standing: Standing) -> None:
    """What stands over one end leaves the other; over both, no way is free."""
    (axis,) = hardware_axes(hinge_plan, standing)["pin"]

    def lid(at_mm: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        corners = np.array([[[-20.0, -20.0, at_mm], [20.0, -20.0, at_mm], [0.0, 30.0, at_mm]]])
        return corners.min(axis=(0, 1)), corners.max(axis=(0, 1)), corners

    over, under = lid(20.0), lid(-20.0)
    turned, free = headed(axis, [over])
    assert free
    assert turned.way[2] > 0.99
    assert headed(axis, [under])[0].way[2] < -0.99
    assert not headed(axis, [over, under])[1]
