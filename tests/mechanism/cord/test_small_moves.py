"""Motion of points."""

from __future__ import annotations

import math

import pytest

from planner.mechanism.cord.small_moves import motions_over
from tests.mechanism.cord.hinged import hinge


def test_a_point_moves_square_to_its_radius_and_as_fast_as_that_is_long() -> None:
    """v = axis x r for a radian of the joint, at every size; a slide moves one for one."""
    (turned,) = motions_over(hinge, [30.0])
    (slid,) = motions_over(hinge, [30.0], slides=True)
    x, y = 20.0 * math.cos(math.radians(30.0)), 20.0 * math.sin(math.radians(30.0))
    for factor in (1.0, 1.5):
        at = (x * factor, y * factor, 0.0)

        assert turned.speed_mm("jaw", at, factor) == pytest.approx((-at[1], at[0], 0.0), abs=1e-6)
        assert turned.speed_mm("base", at, factor) == (0.0, 0.0, 0.0)
        assert slid.speed_mm("slide", (45.0, 1.0, 0.0), factor) == pytest.approx((1.0, 0.0, 0.0))
