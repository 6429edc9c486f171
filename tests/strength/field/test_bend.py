"""A bend seen from what holds the part: whatever rigid motion the solver left in is taken out."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.elements.nodal_forces import Press
from planner.strength.field.bend import Bend, held_still


def test_a_cantilever_bends_from_its_wall_as_textbooks_say() -> None:
    """F L³ / (3 E I) at the tip (textbook), with a shift and a turn of a rigid body added: within 2 %."""
    grid = np.array([(x, y, z) for x in np.linspace(0.0, 60.0, 241) for y in (0.0, 8.0) for z in (0.0, 8.0)])
    tip_mm = 5.0 * 60.0**3 / (3.0 * 2000.0 * 8.0**4 / 12.0)
    x = grid[:, 0]
    shift = np.zeros_like(grid)
    shift[:, 1] = tip_mm * x**2 * (180.0 - x) / (2.0 * 60.0**3)
    loose = shift + np.array([0.3, -0.1, 0.2]) + np.cross([0.01, -0.02, 0.03], grid)
    wall = Press(at_mm=(0.0, 4.0, 4.0), force_n=(0.0, -5.0, 0.0), patch_mm=0.1)
    still = held_still(grid, loose, [wall])

    assert Bend(points_mm=grid, shift_mm=still, low_share=1.0, high_share=1.0).most_mm == pytest.approx(
        tip_mm, rel=0.02
    )
    assert np.abs(still[x < 0.6]).max() < 0.01 * tip_mm


def test_a_support_off_the_surface_holds_what_lies_nearest() -> None:
    """A rigid motion comes out as none, also where no wall of the support's bore is found."""
    grid = np.random.default_rng(5).uniform(-10.0, 10.0, (50, 3))
    far = Press(at_mm=(500.0, 0.0, 0.0), force_n=(0.0, 1.0, 0.0), axis=(0.0, 0.0, 1.0), radius_mm=2.0, deep_mm=5.0)

    assert np.abs(held_still(grid, np.cross([0.0, 0.0, 0.1], grid) + 1.0, [far])).max() < 1e-9


def test_a_coarse_mesh_is_held_where_it_is_held() -> None:
    """Places 8 mm apart, a support of 2 mm: a bar whose far end goes up by 1 mm still bends by about 1 mm at its tip."""
    grid = np.array([(x, y, z) for x in np.arange(0.0, 81.0, 4.0) for y in (0.0, 8.0) for z in (0.0, 8.0)])
    shift = np.zeros_like(grid)
    shift[:, 1] = (grid[:, 0] / 80.0) ** 3
    still = held_still(grid, shift - 5.0, [Press(at_mm=(0.0, 4.0, 4.0), force_n=(0.0, -1.0, 0.0), patch_mm=2.0)])

    assert still[-1, 1] == pytest.approx(1.0, abs=0.05)
