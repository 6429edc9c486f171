"""Moments of flat shapes against closed forms of textbooks."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from planner.strength.beam.flat_moments import beyond_line, edges_of, moments_of, polygons_of


def test_a_tube_has_the_moments_of_its_circles() -> None:
    """Pi (R⁴ - r⁴) / 4 (textbook), wherever it lies, to what 256 sides leave of a circle."""
    tube = shapely.Point(30, -7).buffer(5, quad_segs=64).difference(shapely.Point(30, -7).buffer(4, quad_segs=64))
    found = moments_of(tube)

    assert found.about_centre_mm4[0, 0] == pytest.approx(math.pi / 4 * (625 - 256), rel=1e-3)
    assert found.centre_mm == pytest.approx([30, -7])


def test_an_angle_has_the_moments_of_its_legs() -> None:
    """Legs of 6 by 1: area 11, centroid 41/22, Ixx 35.462, Ixy -20.455 by parallel axes, worked out by hand."""
    found = moments_of(shapely.Polygon([(0, 0), (6, 0), (6, 1), (1, 1), (1, 6), (0, 6)]))

    assert found.area_mm2 == pytest.approx(11.0)
    assert found.centre_mm == pytest.approx([41 / 22, 41 / 22])
    assert found.about_centre_mm4 == pytest.approx(np.array([[35.4621, -20.4545], [-20.4545, 35.4621]]), abs=1e-3)


def test_a_tee_has_the_moments_of_flange_and_web() -> None:
    """Flange 6 by 1 on a web 1 by 5: centroid 4.136 up, I = 33.14 by parallel axes, worked out by hand."""
    tee = shapely.union(shapely.box(-0.5, 0, 0.5, 5), shapely.box(-3, 5, 3, 6))
    by_hand = 125 / 12 + 5 * (2.5 - 45.5 / 11) ** 2 + 6 / 12 + 6 * (5.5 - 45.5 / 11) ** 2

    assert moments_of(tee).centre_mm[1] == pytest.approx(45.5 / 11)
    assert moments_of(tee).about_centre_mm4[1, 1] == pytest.approx(by_hand)


def test_lines_left_over_have_no_area() -> None:
    """Of a collection only polygons count."""
    mixed = shapely.GeometryCollection([shapely.LineString([(0, 0), (1, 1)]), shapely.box(0, 0, 1, 1)])

    assert len(polygons_of(mixed)) == 1
    assert moments_of(mixed).area_mm2 == pytest.approx(1.0)


@pytest.mark.parametrize("turn_rad", [0.0, 0.4, 1.5707963267948966, 2.3, 4.0])
def test_beyond_a_line_is_what_cutting_there_leaves(turn_rad: float) -> None:
    """A plate with two bores beside a bar, cut by an outside library (shapely): the same first moment and width."""
    bores = [shapely.Point(x, 4).buffer(2, quad_segs=8) for x in (5, 13)]
    shape = shapely.MultiPolygon(
        [shapely.box(0, 0, 18, 9).difference(shapely.union_all(bores)), shapely.box(20, 1, 23, 5)]
    )
    at, way = np.array([9.2, 4.3]), np.array([math.cos(turn_rad), math.sin(turn_rad)])
    across = 99.0 * np.array([-way[1], way[0]])
    half = shape.intersection(
        shapely.Polygon([at - across, at + across, at + across + 99 * way, at - across + 99 * way])
    )
    centre = np.array(half.centroid.coords[0])

    lever, wide = beyond_line(edges_of(shape), at, way)

    assert lever == pytest.approx(half.area * float((centre - at) @ way))
    assert wide == pytest.approx(shape.intersection(shapely.LineString([at - across, at + across])).length)
