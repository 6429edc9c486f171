"""A slide that has left its rails is told so, by lengths known by hand."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from planner.mechanism import MovingJoint
from planner.mechanism.movement.run_off import run_off
from tests.mechanism.invented import GAP, HIGH, LEVEL, Device
from tests.shapes import Manifold, solid_of


def _movement(needs: tuple[float, float] | None) -> Any:
    """Return a slider of 20 mm in rails of 160 mm, on a floor that goes on to 400 mm."""
    rail = Manifold.cube((400.0, 30.0, HIGH)).translate((-200, -15, -LEVEL))
    for y in (-15.0, 10.0 + GAP):
        rail += Manifold.cube((160.0, 5.0 - GAP, HIGH + GAP)).translate((-80, y, -GAP))
    slider = Manifold.cube((20.0, 20.0, HIGH)).translate((-10, -10, 0))
    joint = MovingJoint(
        name="way", parts=("rail", "slider"), kind="slides", axis=(1.0, 0.0, 0.0), at_mm=(0.0, 0.0, 0.0)
    )
    solids = {"rail": solid_of(rail, "rail"), "slider": solid_of(slider, "slider")}
    joints = (replace(joint, needs_deg=needs),)
    device = Device(name="slide", solids=solids, joints=joints, ranges={"way": (None, None)})
    return SimpleNamespace(mechanism=device.mechanism(), solids=solids)


@pytest.mark.parametrize(
    ("needs", "off"),
    [
        ((-60.0, 60.0), (False, False)),
        ((-85.0, 95.0), (False, True)),
        ((-95.0, 0.0), (True, False)),
        (None, (False, False)),
    ],
)
def test_it_is_off_where_its_length_is_past_the_rails(
    needs: tuple[float, float] | None, off: tuple[bool, bool]
) -> None:
    """Rails end at 80, half the slider is 10: at 90 it has left them, whatever floor goes on below it."""
    joint: Any = SimpleNamespace(name="way")

    assert run_off(_movement(needs), joint) == off
