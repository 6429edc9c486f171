"""Slits of one body: found at the width they are drawn at, and no bore, groove or wedge is taken for one."""

from __future__ import annotations

import math

import pytest
from manifold3d import CrossSection, Manifold

from planner.survey.openings.slits import slits_in
from tests.shapes import cylinder, solid_of


def _cube(size: tuple[float, float, float], at: tuple[float, float, float]) -> Manifold:
    return Manifold.cube(size).translate(at)


@pytest.mark.parametrize("wide_mm", [0.15, 0.3, 0.8])
def test_the_slit_of_a_collet_is_as_wide_as_it_is_drawn(wide_mm: float) -> None:
    """A tube of 20 over 12 mm, slit over 20 of its 25 mm: 4 mm deep, by the drawing."""
    tube = cylinder(20.0, 25.0, 96) - cylinder(12.0, 60.0, 96).translate((0, 0, -9))
    slit = slits_in(solid_of(tube - _cube((20.0, wide_mm, 30.0), (0.0, -wide_mm / 2, 5.0)), "a"))

    assert slit[0].width_mm == pytest.approx(wide_mm, abs=0.001)
    assert (slit[0].long_mm, slit[0].deep_mm) == pytest.approx((20.0, 4.0), abs=0.5)


def test_a_slit_that_lies_on_the_slant_is_as_wide_as_it_is_drawn() -> None:
    """The same cut through a block, turned by 30 and 20 degrees: turning changes no length."""
    block = _cube((30.0, 20.0, 10.0), (0.0, 0.0, 0.0)) - _cube((20.0, 0.4, 20.0), (15.0, 10.0, -5.0))

    assert slits_in(solid_of(block.rotate((30.0, 0.0, 20.0)), "a"))[0].width_mm == pytest.approx(0.4, abs=0.001)


def test_what_is_no_slit_is_not_taken_for_one() -> None:
    """A bore of 0.6 mm, one of 5, a wide slot, a wedge of 30 degrees, a score 0.3 mm deep: none has parallel sides."""
    plate = _cube((60.0, 30.0, 6.0), (0.0, 0.0, 0.0)) - cylinder(0.6, 20.0, 24).translate((8, 8, -5))
    plate -= cylinder(5.0, 20.0, 48).translate((20, 8, -5)) + _cube((1.4, 20.0, 20.0), (30.0, 4.0, -5.0))
    wedge = CrossSection([[(0.0, 0.0), (12.0 * math.tan(math.radians(15)), 12.0), (-3.215, 12.0)]])
    plate -= Manifold.extrude(wedge, 20.0).translate((45.0, 19.0, -5.0)) + _cube((30.0, 0.3, 2.0), (2.0, 25.0, 5.7))

    assert slits_in(solid_of(plate, "a")) == ()
