"""Sharp corners of a cord's way: bores that meet at an angle are a hold, crossing far off or in line they are not."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.job import Cord
from planner.mesh import Solid
from planner.rules.fit.channels.channel_corner import corner_findings
from planner.survey import survey
from tests.shapes import Manifold, cylinder, solid_of

CORD = Cord(name="pull cord", part="guide", diameter_mm=1.0, channel_mm=2.0)


def _guide(turn_deg: float, *, up_mm: float = 0.0) -> Solid:
    """Return a block of 60 x 60 x 16 mm with a bore of 2 mm to its middle, and another one from there, turned."""
    first = cylinder(2.0, 40.0, 48).rotate((0, 90, 0)).translate((-40, 0, 0))
    second = cylinder(2.0, 60.0, 48).rotate((0, 90, 0)).rotate((0, 0, turn_deg)).translate((0, 0, up_mm))
    block = Manifold.cube((60.0, 60.0, 16.0)).translate((-30, -30, -8))
    return solid_of(block - first - second, "guide")


@pytest.mark.parametrize("turn_deg", [45.0, 90.0])
def test_bores_that_meet_at_an_angle_are_a_hold(turn_deg: float) -> None:
    """The angle is that which was drawn, told where they meet: at the block's middle."""
    (found,) = corner_findings(CORD, survey(_guide(turn_deg)).bores)

    assert found.verdict is Verdict.HOLD
    assert found.measured == pytest.approx(turn_deg, abs=0.5)
    assert found.at_mm == pytest.approx((0.0, 0.0, 0.0), abs=0.2)
    assert "3.0 mm or more inside" in found.remedy


@pytest.mark.parametrize(("turn_deg", "up_mm"), [(15.0, 0.0), (90.0, 5.0)], ids=["nearly straight", "past each other"])
def test_others_are_not(turn_deg: float, up_mm: float) -> None:
    """15 degrees press the cord on nothing; bores 5 mm over each other do not meet."""
    assert corner_findings(CORD, survey(_guide(turn_deg, up_mm=up_mm)).bores) == []
