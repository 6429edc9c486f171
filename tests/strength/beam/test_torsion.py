"""Torsion against the table of rectangular bars (Timoshenko and Goodier, from memory) and closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from planner.strength.beam.skin_and_core import zones_of
from planner.strength.beam.torsion import solid_torsion, together


@pytest.mark.parametrize(
    ("ratio", "alpha", "beta"), [(1.0, 0.208, 0.1406), (1.2, 0.219, 0.166), (2.0, 0.246, 0.229), (5.0, 0.291, 0.291)]
)
def test_rectangles_twist_as_published(ratio: float, alpha: float, beta: float) -> None:
    """J = beta b h³ within 1 %, the greatest shear T / (alpha b h²) within 1.5 %."""
    found = solid_torsion(shapely.box(0, 0, 3 * ratio, 3))

    assert found.constant_mm4 == pytest.approx(beta * 81 * ratio, rel=0.01)
    assert found.shear_mpa_per_n_mm == pytest.approx(1 / (alpha * 27 * ratio), rel=0.015)


def test_a_round_bar_twists_exactly() -> None:
    """J = pi r⁴ / 2 and T r / J (Coulomb, textbook)."""
    found = solid_torsion(shapely.Point(0, 0).buffer(4, quad_segs=64))

    assert found.constant_mm4 == pytest.approx(math.pi * 128, rel=0.01)
    assert found.shear_mpa_per_n_mm == pytest.approx(4 / (math.pi * 128), rel=0.01)


def test_a_thin_angle_is_at_most_its_strip() -> None:
    """Two legs of 20 by 1 twist as a strip, sum of b t³ / 3 (textbook), within 40 %: the corner is wider."""
    angle = shapely.Polygon([(0, 0), (20, 0), (20, 1), (1, 1), (1, 20), (0, 20)])

    assert solid_torsion(angle).constant_mm4 == pytest.approx(39 / 3, rel=0.4)


@pytest.mark.parametrize("inside_mm", [1.0, 3.0, 4.75])
def test_tubes_of_any_wall_twist_exactly(inside_mm: float) -> None:
    """J = pi (R⁴ - r⁴) / 2 and T R / J (Coulomb): by Bredt's thin wall a thick one took 0.6 of its shear."""
    tube = shapely.Point(0, 0).buffer(5, quad_segs=64).difference(shapely.Point(0, 0).buffer(inside_mm, quad_segs=32))
    constant = math.pi * (625 - inside_mm**4) / 2

    assert solid_torsion(tube).constant_mm4 == pytest.approx(constant, rel=0.01)
    assert solid_torsion(tube).shear_mpa_per_n_mm == pytest.approx(5 / constant, rel=0.015)


def test_a_bore_off_the_middle_leaves_a_thin_wall_sheared_most() -> None:
    """Bredt: what flows round is the same all along, so that the thin side of a thin tube takes most, T / (2 A t)."""
    tube = shapely.Point(0, 0).buffer(10, quad_segs=64).difference(shapely.Point(0.3, 0).buffer(9.2, quad_segs=64))
    found = solid_torsion(tube)
    most = np.linalg.norm(found.edge_mpa_per_n_mm, axis=1).argmax()

    assert found.shear_mpa_per_n_mm == pytest.approx(1 / (2 * math.pi * 9.6**2 * 0.5), rel=0.06)
    assert found.places_mm[most, 0] > 8.0


def test_an_inner_corner_has_an_end() -> None:
    """As at the widest circle (Roark): thrice the pieces would find more and more, and it stays within 1 %."""
    angle = shapely.Polygon([(0, 0), (20, 0), (20, 4), (4, 4), (4, 20), (0, 20)])
    shear = solid_torsion(angle).shear_mpa_per_n_mm

    assert shear == pytest.approx(solid_torsion(shapely.segmentize(angle, 0.7)).shear_mpa_per_n_mm, rel=0.01)
    assert 4.0 < shear * solid_torsion(angle).constant_mm4 < 1.4 * 4.0


def test_a_round_skin_without_a_core_is_a_tube() -> None:
    """Taking the core off a round bar leaves pi (R⁴ - r⁴) / 2."""
    whole, core = (shapely.Point(0, 0).buffer(r, quad_segs=64) for r in (5, 4))

    assert together(whole, core, 0.0).constant_mm4 == pytest.approx(math.pi / 2 * (625 - 256), rel=0.01)


@pytest.mark.parametrize("skin_mm", [0.8, 50.0])
@pytest.mark.parametrize(
    "shape",
    [
        shapely.box(0, 0, 10, 10),
        shapely.box(0, 0, 30, 4),
        shapely.Point(0, 0).buffer(8.0).difference(shapely.Point(3, 0).buffer(3.0)),
        shapely.box(0, 0, 20, 10).difference(shapely.box(3, 3, 17, 10)),
        shapely.box(0, 0, 20, 10).difference(shapely.Point(5, 5).buffer(3)).difference(shapely.Point(15, 4).buffer(2)),
        shapely.union_all([shapely.box(0, 0, 4, 9), shapely.box(12, 0, 19, 9)]),
    ],
    ids=["square", "plate", "off-middle bore", "channel", "two bores", "two legs"],
)
def test_no_torsion_is_over_what_its_bound_says(shape: shapely.Geometry, skin_mm: float) -> None:
    """Against what is solved along the edge: by it torsion is left out, so it must hold."""
    zones = zones_of(shape, skin_mm, 0.15)
    solved = zones.torsion.shear_mpa_per_n_mm
    assert solved <= zones.twist_most_mpa
    assert zones.twist_mpa(1.0, 0.9 * solved) == solved
    assert zones.twist_mpa(1.0, 1.01 * zones.twist_most_mpa) == 0.0
