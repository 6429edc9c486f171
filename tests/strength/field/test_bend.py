"""A bend seen from what holds the part: whatever rigid motion the solver left in is taken out."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.elements.pressed import Press
from planner.strength.field.bend import Bend, held_still


def test_a_cantilever_bends_from_its_wall_as_textbooks_say() -> None:
    """F L³ / (3 E I) at the tip (textbook), with a shift and a turn of a rigid body added: within 2 %."""
    grid = np.array([(x, y, z) for x in np.linspace(0.0, 60.0, 61) for y in (0.0, 8.0) for z in (0.0, 8.0)])
    tip_mm = 5.0 * 60.0**3 / (3.0 * 2000.0 * 8.0**4 / 12.0)
    x = grid[:, 0]
    shift = np.zeros_like(grid)
    shift[:, 1] = tip_mm * x**2 * (180.0 - x) / (2.0 * 60.0**3)
    loose = shift + np.array([0.3, -0.1, 0.2]) + np.cross([0.01, -0.02, 0.03], grid)
    wall = Press(at_mm=(0.0, 4.0, 4.0), force_n=(0.0, -5.0, 0.0), patch_mm=6.0)
    still = held_still(grid, loose, [wall])

    assert Bend(points_mm=grid, shift_mm=still, low_share=1.0, high_share=1.0).most_mm == pytest.approx(
        tip_mm, rel=0.02
    )
    assert np.abs(still[x < 0.5]).max() < 0.01 * tip_mm


def test_a_part_without_a_place_at_its_support_bends_about_its_middle() -> None:
    """A support off the surface holds nothing: a rigid motion still comes out as none."""
    grid = np.random.default_rng(5).uniform(-10.0, 10.0, (50, 3))
    far = Press(at_mm=(500.0, 0.0, 0.0), force_n=(0.0, 1.0, 0.0), axis=(0.0, 0.0, 1.0), radius_mm=2.0, deep_mm=5.0)

    assert np.abs(held_still(grid, np.cross([0.0, 0.0, 0.1], grid) + 1.0, [far])).max() < 1e-9
