"""Cylinders, cones and planes are laid flat by their closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
import shapely.affinity

from planner.pattern.least_stretch import least_stretch
from planner.pattern.patch import Patch, patch_of
from planner.pattern.round_fit import round_fit
from planner.pattern.unrolled import unrolled_plane, unrolled_round
from tests.pattern.surfaces import shell


def polygon(patch: Patch, offset_mm: float) -> shapely.Polygon:
    fit = round_fit(patch)
    assert fit is not None
    rings = unrolled_round(patch, fit, offset_mm)
    assert rings is not None
    return shapely.Polygon(rings[0], rings[1:])


@pytest.mark.parametrize("thick_mm", [0.0, 3.0, 6.0])
def test_half_a_cylinder_is_a_rectangle(thick_mm: float) -> None:
    """Radius R, length L, padding t: π (R - t/2) by L (circumference of the layer in the middle), within 0.1 mm."""
    flat = polygon(shell(31, 31, 120, 180, n=24), thick_mm / 2)
    left, low, right, high = flat.bounds

    assert right - left == pytest.approx(math.pi * (31 - thick_mm / 2), abs=0.1)
    assert high - low == pytest.approx(120, abs=0.1)
    assert flat.area == pytest.approx(math.pi * (31 - thick_mm / 2) * 120, rel=1e-4)


def test_a_cone_is_a_sector_of_a_ring() -> None:
    """Its angle is the angle round the axis times sin α, to 0.1°; its radii are r / sin α (Euclid), to 0.1 mm."""
    low, high, long, thick_mm = 26.66, 31.0, 120.0, 3.0
    half = math.atan((high - low) / long)
    flat = polygon(shell(low, high, long, 242, n=60), thick_mm / 2)
    slant = math.hypot(high - low, long)
    far = (high - thick_mm / 2 * math.cos(half)) / math.sin(half)
    angle = math.radians(242) * math.sin(half)

    assert flat.area == pytest.approx(angle / 2 * (far**2 - (far - slant) ** 2), rel=1e-4)
    corners = np.array(flat.simplify(0.01).exterior.coords)
    left, _, right, _ = flat.bounds
    assert right - left == pytest.approx(2 * far * math.sin(angle / 2), abs=0.1)
    assert math.degrees(2 * math.asin((right - left) / 2 / far)) == pytest.approx(math.degrees(angle), abs=0.1)
    assert corners[:, 1].max() - corners[:, 1].min() == pytest.approx(
        far - (far - slant) * math.cos(angle / 2), abs=0.1
    )


def test_it_is_drawn_as_seen_from_the_skin() -> None:
    """An opening off the middle lies where the general map, which cannot mirror, puts it: turned and moved, 0.05 mm apart."""
    pipe = shell(31, 27, 100, 200, n=40, rows=11)
    middles = pipe.corners_mm.mean(axis=1)
    patch = patch_of(
        pipe.vertices_mm,
        pipe.faces[~((abs(middles[:, 1] - 18) < 4) & (middles[:, 0] > 0) & (abs(middles[:, 2] - 65) < 10))],
    )
    exact, general = polygon(patch, 0.0), least_stretch(patch)
    other = shapely.Polygon(general[patch.loops[0]], [general[patch.loops[1]]])
    arms = [
        complex(*(np.array(one.interiors[0].centroid.coords[0]) - one.exterior.centroid.coords[0]))
        for one in (exact, other)
    ]
    turned = shapely.affinity.rotate(other, np.degrees(np.angle(arms[0] / arms[1])), origin=(0, 0))
    a, b = exact.exterior.centroid, turned.exterior.centroid

    assert exact.hausdorff_distance(shapely.affinity.translate(turned, a.x - b.x, a.y - b.y)) < 0.15


def test_a_sleeve_is_cut_open_along_a_line() -> None:
    """A pipe all the way round becomes a rectangle 2 π r by L; an opening in it stays whole."""
    pipe = shell(30, 30, 100, 360, n=72, rows=11)
    middles = pipe.corners_mm.mean(axis=1)
    holed = patch_of(pipe.vertices_mm, pipe.faces[~((middles[:, 0] > 25) & (abs(middles[:, 2] - 50) < 10))])
    flat = polygon(holed, 1.5)
    left, low, right, high = flat.bounds

    assert (right - left, high - low) == pytest.approx((2 * math.pi * 28.5, 100), abs=0.1)
    assert len(flat.interiors) == 1
    assert flat.area == pytest.approx(holed.area_mm2 * 28.5 / 30, rel=1e-3)


def test_no_two_openings_leave_a_line_to_cut() -> None:
    """A sleeve whose openings go all the way round, staggered, has no straight line to be cut along."""
    pipe = shell(30, 30, 100, 360, n=72, rows=11)
    middles = pipe.corners_mm.mean(axis=1)
    low = (middles[:, 0] > -20) & (abs(middles[:, 2] - 25) < 6)
    high = (middles[:, 0] < 20) & (abs(middles[:, 2] - 75) < 6)
    fit = round_fit(pipe)

    assert fit is not None
    assert unrolled_round(patch_of(pipe.vertices_mm, pipe.faces[~(low | high)]), fit, 0.0) is None


def test_a_plane_stays_as_it_is() -> None:
    """A leaning plate of 80 by 30 mm is a rectangle of 80 by 30 mm, drawn as seen from the skin."""
    corners = np.array([[0, 0, 0], [80, 0, 0], [80, 18, 24], [0, 18, 24]], float)
    rings = unrolled_plane(patch_of(corners, np.array([[0, 1, 2], [0, 2, 3]])))

    assert rings is not None
    flat = shapely.Polygon(rings[0])
    assert flat.area == pytest.approx(2400)
    assert flat.exterior.is_ccw
    assert sorted(np.ptp(np.array(rings[0]), axis=0)) == pytest.approx([30, 80])
