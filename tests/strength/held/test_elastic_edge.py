"""Stress under a strip that is glued down rises towards its edge as that of a beam on an elastic foundation."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.held.elastic_edge import edge_rise, force_rise, moment_rise, wave_per_mm


def free_strip_mm(waves: float, force: float, moment: float) -> float:
    """Return how far the loaded end of a free strip of length 1, width 1 and foundation 1 rises.

    y'''' = -4 w⁴ y with E I = 1 / (4 w⁴): four unknowns from E I y'' and E I y''' at both ends.
    """
    roots = waves * np.array([1 + 1j, 1 - 1j, -1 + 1j, -1 - 1j])
    stiff = 1.0 / (4.0 * waves**4)
    rows = [stiff * roots**2 * np.exp(roots * x) for x in (0.0, 1.0)]
    rows += [stiff * roots**3 * np.exp(roots * x) for x in (0.0, 1.0)]
    return float(np.linalg.solve(np.array(rows), np.array([moment, 0.0, force, 0.0], dtype=complex)).sum().real)


@pytest.mark.parametrize("waves", [0.5, 1.5, 4.0, 8.0])
def test_the_edge_takes_what_the_equation_of_the_foundation_gives(waves: float) -> None:
    """The closed forms are those that the beam's differential equation gives (Hetényi 1946), solved here anew."""
    assert 6.0 * moment_rise(waves) == pytest.approx(abs(free_strip_mm(waves, 0.0, 1.0)), rel=1e-6)
    assert 4.0 * force_rise(waves) == pytest.approx(abs(free_strip_mm(waves, 1.0, 0.0)), rel=1e-6)


def test_a_long_strip_is_peeled_as_a_double_cantilever_is() -> None:
    """Its wave is 6^(1/4) over its height (Kanninen 1973): a moment pulls 0.816 times as hard as it bends."""
    long_mm, high_mm, wide_mm, moment = 60.0, 4.0, 10.0, 500.0
    wave = wave_per_mm(wide_mm, high_mm, wide_mm * high_mm**3 / 12.0)
    stiff_mpa, bent_mpa = 6.0 * moment / (wide_mm * long_mm**2), 6.0 * moment / (wide_mm * high_mm**2)

    assert wave == pytest.approx(6.0**0.25 / high_mm)
    assert edge_rise(0.0, moment, long_mm, wave) * stiff_mpa == pytest.approx(2.0 * 6.0**0.5 / 6.0 * bent_mpa, rel=1e-4)


def test_a_thick_block_takes_what_a_stiff_one_does() -> None:
    """N / A + M / W (textbook): nothing rises towards its edge, wherever the load stands."""
    wave = wave_per_mm(10.0, 80.0, 10.0 * 80.0**3 / 12.0)

    assert edge_rise(10.0, 500.0, 10.0, wave) == pytest.approx(1.0, abs=1e-3)
    assert edge_rise(10.0, 5.0, 10.0, wave) == 1.0
