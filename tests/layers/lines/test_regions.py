"""Regions: contours, solid fill and infill weigh what the wall is."""

from __future__ import annotations

import math

import pytest

from planner.sourced import stated
from tests.layers.conftest import Estimated
from tests.shapes import cuboid, tube


def test_a_thin_tube_is_laid_in_lines_of_known_length(estimated: Estimated) -> None:
    """A wall of two lines is two contours: each layer 2 pi (R - w/2) + 2 pi (r + w/2), within 1 % (geometry)."""
    estimate = estimated(tube(40.0, 38.2, 20.0, 240))
    meant = 2 * math.pi * (20.0 - 0.225 + 19.1 + 0.225) * estimate.layers_n

    assert estimate.kinds_mm["outer contour"] == pytest.approx(meant, rel=0.01)
    assert estimate.kinds_mm["infill"] == 0.0


@pytest.mark.parametrize("wall", [0.5, 0.8, 1.0, 1.2, 1.4, 2.0, 2.6, 4.0])
def test_walls_of_any_width_weigh_what_they_are(estimated: Estimated, wall: float) -> None:
    """At 100 % infill a wall deposits its volume, less only the outer beads' round sides, and never more than it is."""
    solid = cuboid(60, wall, 20)
    share = estimated(solid, infill_percent=stated(100.0)).deposited_mm3 / solid.volume_mm3

    assert 0.90 - 0.05 / wall < share < 1.02
