"""Skin and core of a section against closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from planner.strength.beam.skin_and_core import core_stiffness_share, zones_of

UP = np.array([0.0, 1.0])


def test_an_empty_core_leaves_a_box() -> None:
    """A skin of 1 round 10 by 8: I = (10 8³ - 8 6³) / 12."""
    found = zones_of(shapely.box(0, 0, 10, 8), 1.0, 0.0)

    assert found.moments.about_centre_mm4[1, 1] == pytest.approx((10 * 512 - 8 * 216) / 12)


def test_a_skin_that_meets_itself_is_solid() -> None:
    """Where contours fill the section, infill plays no part."""
    thin = zones_of(shapely.box(0, 0, 10, 2), 1.35, 0.1)

    assert thin.core.is_empty
    assert thin.moments.area_mm2 == pytest.approx(20.0)


def test_more_infill_is_stiffer_by_its_square() -> None:
    """Gibson and Ashby 1997: half as dense, a quarter as stiff; the solid at a share of 1."""
    assert core_stiffness_share(0.5) == 0.25
    full = zones_of(shapely.box(0, 0, 10, 8), 1.0, 1.0)
    assert full.moments.area_mm2 == pytest.approx(80.0)


def test_shear_is_greatest_as_textbooks_say() -> None:
    """1.5 / A in a rectangle, 4/3 / A in a circle, 2 / A in a thin tube."""
    circle, inside = (shapely.Point(0, 0).buffer(r, quad_segs=64) for r in (10, 9.9))
    tube = circle.difference(inside)

    assert zones_of(shapely.box(0, 0, 4, 8), 9, 1).shear_mpa_per_n(UP) == pytest.approx(1.5 / 32)
    assert zones_of(circle, 99, 1).shear_mpa_per_n(UP) == pytest.approx(4 / 3 / circle.area, rel=1e-3)
    assert zones_of(tube, 99, 1).shear_mpa_per_n(UP) == pytest.approx(2 / tube.area, rel=0.02)
    assert math.isfinite(
        zones_of(shapely.MultiPolygon([shapely.box(0, 0, 4, 1), shapely.box(0, 2, 4, 3)]), 9, 1).shear_mpa_per_n(UP)
    )


def test_a_line_through_a_section_lies_nowhere_off_it_and_one_beside_it_does() -> None:
    """Along the section's own direction, 3 mm beside a box that ends at 10."""
    found = zones_of(shapely.box(0, 0, 10, 8), 1.0, 0.0)

    assert found.off_mm(np.array([5.0, -40.0]), UP) == 0.0
    assert found.off_mm(np.array([5.0, 40.0]), UP) == 0.0
    assert found.off_mm(np.array([13.0, 4.0]), UP) == pytest.approx(3.0)
