"""Stress at joints: closed forms by hand, and the law of scale."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.rules.fit.strength.joint_stress import (
    bearing_mpa,
    net_section_mpa,
    pin_bending_mpa,
    pin_shear_mpa,
    tear_out_mpa,
)


def test_a_fork_pin_by_hand() -> None:
    """Rod 20 mm, cheeks 10 mm, pin 10 mm, 5 kN (worked by hand from the textbook formulas, Roloff/Matek, from memory).

    M = 5000 (20 + 2 x 10) / 8 = 25,000 N mm; W = pi 1000 / 32 = 98.17 mm3; sigma = 254.6 MPa.
    Double shear: 5000 / (2 x 78.54) = 31.83 MPa; rod: 5000 / (10 x 20) = 25 MPa; cheeks: 5000 / (10 x 2 x 10) = 25 MPa.
    """
    assert pin_bending_mpa(5000, 10, 40) == pytest.approx(254.6, abs=0.1)
    assert pin_shear_mpa(5000, 10, 2) == pytest.approx(31.83, abs=0.01)
    assert bearing_mpa(5000, 10, 20) == pytest.approx(25.0)


def test_a_lug_by_hand() -> None:
    """Strap 40 mm wide and 6 mm thick, hole 16 mm, 12 kN: net section 12000 / ((40 - 16) 6) = 83.33 MPa."""
    assert net_section_mpa(12000, (40 - 16) / 2, 6) == pytest.approx(83.33, abs=0.01)
    assert tear_out_mpa(12000, 12, 6) == pytest.approx(83.33, abs=0.01)


@given(s=st.floats(0.3, 3.0), force=st.floats(1, 1e4), d=st.floats(1, 50), t=st.floats(1, 50))
def test_equal_force_goes_as_one_over_s_squared(s: float, force: float, d: float, t: float) -> None:
    """Every length scaled, every stress goes as 1/s2 (areas; for bending, s over s cubed)."""
    for stress in (net_section_mpa, bearing_mpa, tear_out_mpa, pin_bending_mpa):
        assert stress(force, d * s, t * s) == pytest.approx(stress(force, d, t) / s**2)
    assert pin_shear_mpa(force, d * s) == pytest.approx(pin_shear_mpa(force, d) / s**2)
