"""Stresses of a cut against hand calculation."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from planner.strength.beam.cut_stress import stress_in
from planner.strength.beam.skin_and_core import zones_of

SOLID = zones_of(shapely.box(-3, -5, 3, 5), 9.0, 1.0)


def test_bending_and_pull_add_at_the_corner() -> None:
    """N / A + M / W with W = 6 10² / 6 = 100: 600 / 60 + 2000 / 100 = 30 MPa."""
    found = stress_in(SOLID, np.array([0.0, 0.0, 600.0]), np.array([2000.0, 0.0, 0.0]))

    assert found.tensors_mpa[:, 2, 2].max() == pytest.approx(30.0)
    assert found.tensors_mpa[:, 2, 2].min() == pytest.approx(-10.0)


def test_shear_is_judged_at_the_centroid() -> None:
    """1.5 V / A = 1.5 MPa for 60 N over 60 mm²; none at the corners."""
    found = stress_in(SOLID, np.array([0.0, 60.0, 0.0]), np.zeros(3))

    assert found.tensors_mpa[-1, 1, 2] == pytest.approx(1.5)
    assert np.abs(found.tensors_mpa[:-1]).max() == 0.0


def test_torsion_shears_the_long_sides_most_and_corners_not() -> None:
    """T / (alpha b h²) with alpha 0.237 for 1.67 to 1 (Timoshenko and Goodier, between its rows), 2 %, along the side."""
    found = stress_in(SOLID, np.zeros(3), np.array([0.0, 0.0, 1000.0]))
    size = np.linalg.norm(found.tensors_mpa[:, 2, :2], axis=1)

    assert size.max() == pytest.approx(1000 / (0.237 * 10 * 36), rel=0.02)
    assert np.abs(found.places_mm[size.argmax()]) == pytest.approx([3.0, 0.0], abs=0.5)
    assert size[:4].max() == 0.0
    assert np.array_equal(found.tensors_mpa, found.tensors_mpa.transpose(0, 2, 1))


def test_shear_of_a_force_adds_to_what_of_torsion_goes_its_way() -> None:
    """A flat bar pushed across its thin side: at its short sides' middle 0.75 of torsion's most, not all of it."""
    flat = zones_of(shapely.box(-15, -1.5, 15, 1.5), 9.0, 1.0)
    both, twist = (stress_in(flat, np.array([0.0, push, 0.0]), np.array([0.0, 0.0, 900.0])) for push in (60.0, 0.0))

    assert both.tensors_mpa[-1, 1, 2] - 1.5 * 60 / 90 == pytest.approx(0.743 * 900 / (0.313 * 30 * 9), rel=0.03)
    assert np.linalg.norm(twist.tensors_mpa[:, 2, :2], axis=1).max() == pytest.approx(900 / (0.313 * 30 * 9), rel=0.02)
