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


def test_torsion_shears_every_place() -> None:
    """T / (alpha b h²) with alpha 0.238 for 1.67 to 1 (Timoshenko and Goodier, between its rows): within 5 %."""
    found = stress_in(SOLID, np.zeros(3), np.array([0.0, 0.0, 1000.0]))

    assert np.linalg.norm(found.tensors_mpa[:, 2, :2], axis=1) == pytest.approx(1000 / (0.237 * 10 * 36), rel=0.05)
    assert np.array_equal(found.tensors_mpa, found.tensors_mpa.transpose(0, 2, 1))
