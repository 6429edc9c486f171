"""Layers laid: the brim stays outside, and an empty box is its contours."""

from __future__ import annotations

import pytest

from planner.layers import (
    bead_area_mm2,
)
from planner.layers.heights import layer_tops_mm
from planner.sourced import stated
from tests.layers.conftest import Estimated
from tests.shapes import cuboid, cylinder, solid_of, tube


def test_a_brim_stays_outside_of_holes(estimated: Estimated) -> None:
    """A tube's brim is as long as one round its outside, not inside its bore."""
    brim = stated(3.0)
    ring, disc = estimated(tube(40, 30, 4), brim_mm=brim), estimated(solid_of(cylinder(40, 4, 96)), brim_mm=brim)

    assert ring.kinds_mm["brim"] == pytest.approx(disc.kinds_mm["brim"], rel=1e-3)
    assert ring.kinds_mm["brim"] > 0.0


def test_an_empty_box_by_hand(estimated: Estimated) -> None:
    """No infill, no solid layers, one contour: perimeter of the centre line times layers times the bead's area."""
    none = stated(0.0)
    estimate = estimated(
        cuboid(30, 20, 10.04), infill_percent=none, solid_top_mm=none, solid_bottom_mm=none, contours_n=1
    )
    layers = len(layer_tops_mm(10.04, 0.24, 0.2))
    first, other = bead_area_mm2(0.45, 0.24), bead_area_mm2(0.45, 0.2)
    perimeter = 2 * (30 - 0.45 + 20 - 0.45)

    assert estimate.layers_n == layers == 50
    assert estimate.deposited_mm3 == pytest.approx(perimeter * (first + 49 * other), rel=1e-6)
