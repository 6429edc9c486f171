"""Arithmetic on three numbers against arrays."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.mechanism.cord.vectors import across, between_rad, cross, dot, flat, turned_rad, unit


def test_products_are_those_of_arrays() -> None:
    """Scalar and vector product, and what is left across an axis, agree with numpy."""
    rng = np.random.default_rng(7)
    for a, b in rng.normal(size=(20, 2, 3)):
        ta, tb = tuple(a), tuple(b)
        axis = unit(tb)

        assert dot(ta, tb) == pytest.approx(a @ b)
        assert cross(ta, tb) == pytest.approx(tuple(np.cross(a, b)))
        assert dot(flat(ta, axis), axis) == pytest.approx(0.0, abs=1e-12)
        assert dot(across(axis), axis) == pytest.approx(0.0, abs=1e-12)


def test_angles_are_exact_where_a_cosine_is_not() -> None:
    """A billionth of a radian is told, and turns count on to a full one."""
    assert between_rad((1.0, 0.0, 0.0), (1.0, 1e-9, 0.0)) == pytest.approx(1e-9)
    assert turned_rad((1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0)) == pytest.approx(1.5 * math.pi)
