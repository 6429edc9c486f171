"""Torsion against the table of rectangular bars (Timoshenko and Goodier, from memory) and closed forms."""

from __future__ import annotations

import math

import pytest
import shapely

from planner.strength.beam.torsion import solid_torsion, together, wall_torsion


@pytest.mark.parametrize(
    ("ratio", "alpha", "beta"), [(1.0, 0.208, 0.1406), (1.2, 0.219, 0.166), (2.0, 0.246, 0.229), (5.0, 0.291, 0.291)]
)
def test_rectangles_twist_as_published(ratio: float, alpha: float, beta: float) -> None:
    """J = beta b h³ within 2 %, the greatest shear T / (alpha b h²) within 5 %."""
    found = solid_torsion(shapely.box(0, 0, 3 * ratio, 3))

    assert found.constant_mm4 == pytest.approx(beta * 81 * ratio, rel=0.02)
    assert found.shear_mpa_per_n_mm == pytest.approx(1 / (alpha * 27 * ratio), rel=0.05)


def test_a_round_bar_twists_exactly() -> None:
    """J = pi r⁴ / 2 and T r / J (Coulomb, textbook)."""
    found = solid_torsion(shapely.Point(0, 0).buffer(4, quad_segs=64))

    assert found.constant_mm4 == pytest.approx(math.pi * 128, rel=0.01)
    assert found.shear_mpa_per_n_mm == pytest.approx(4 / (math.pi * 128), rel=0.01)


def test_a_thin_angle_is_at_most_its_strip() -> None:
    """Two legs of 20 by 1 twist as a strip, sum of b t³ / 3 (textbook), within 40 %: the corner is wider."""
    angle = shapely.Polygon([(0, 0), (20, 0), (20, 1), (1, 1), (1, 20), (0, 20)])

    assert solid_torsion(angle).constant_mm4 == pytest.approx(39 / 3, rel=0.4)


def test_a_thin_tube_twists_by_bredt() -> None:
    """2 pi r³ t for the middle of the wall (textbook), and T / (2 A t)."""
    tube = shapely.Point(0, 0).buffer(10.5, quad_segs=64).difference(shapely.Point(0, 0).buffer(9.5, quad_segs=64))

    assert wall_torsion(tube).constant_mm4 == pytest.approx(2 * math.pi * 1000, rel=0.01)
    assert wall_torsion(tube).shear_mpa_per_n_mm == pytest.approx(1 / (2 * math.pi * 100), rel=0.01)


def test_a_round_skin_without_a_core_is_a_tube() -> None:
    """Taking the core off a round bar leaves pi (R⁴ - r⁴) / 2."""
    whole, core = (shapely.Point(0, 0).buffer(r, quad_segs=64) for r in (5, 4))

    assert together(whole, core, 0.0).constant_mm4 == pytest.approx(math.pi / 2 * (625 - 256), rel=0.01)
