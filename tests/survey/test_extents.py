"""Extents: the largest scale on a bed, exactly."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.survey import circle_mm, hull_points, largest_factor, shadow_mm


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10_000), width=st.floats(20, 200), depth=st.floats(20, 200))
def test_the_largest_scale_on_a_bed_is_exact(seed: int, width: float, depth: float) -> None:
    """No turn of a fine sweep fits larger than the closed form, and the closed form is reached within 0.1 %."""
    rng = np.random.default_rng(seed)
    points = rng.normal(size=(int(rng.integers(3, 30)), 3)) * [*rng.uniform(1, 50, 2), 5]
    outline, _ = shadow_mm(hull_points(points), (0.0, 0.0, -1.0))
    factor, _ = largest_factor(outline, width, depth)
    angles = np.radians(np.arange(0, 180, 0.1))
    x = outline[:, :1] * np.cos(angles) - outline[:, 1:] * np.sin(angles)
    y = outline[:, :1] * np.sin(angles) + outline[:, 1:] * np.cos(angles)
    swept = np.minimum(width / np.ptp(x, axis=0), depth / np.ptp(y, axis=0)).max()

    assert swept <= factor + 1e-9
    assert factor <= swept * 1.002


def test_an_octagon_fits_a_smaller_square_when_turned() -> None:
    """A regular octagon of circumradius R needs 2 R cos(pi/8) flat (geometry); its circle is 2 R."""
    angle = np.arange(8) * np.pi / 4
    outline = np.column_stack([np.cos(angle), np.sin(angle)]) * 100
    factor, _ = largest_factor(outline, 184.7759, 184.7759)

    assert factor == pytest.approx(1.0, abs=1e-6)
    assert circle_mm(outline) == pytest.approx(200.0)


def test_the_tray_of_others_fits_the_square_that_was_measured() -> None:
    """Outside check: an octagon 355.6 across needs a square of side 355.6 x cos(22.5) / cos(0 or 22.5) (geometry)."""
    angle = np.arange(8) * np.pi / 4 + np.pi / 8
    outline = np.column_stack([np.cos(angle), np.sin(angle)]) * 355.6 / 2 / math.cos(math.pi / 8)

    assert 1.0 / largest_factor(outline, 1.0, 1.0)[0] == pytest.approx(355.6, rel=1e-6)
