"""A hollow box and a round shaft, bent and twisted, against closed forms (textbook)."""

from __future__ import annotations

import math

import pytest

from planner.mesh import Solid
from planner.strength.beam.beam_pass import Weakest, weakest
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import Manifold, cylinder, solid_of
from tests.strength.beam.test_beam_pass import SOLID

LONG_MM, ARM_MM, PUSH_N = 90.0, 70.0, 60.0


def _box() -> Solid:
    """Return a tube of 20 by 20 with walls of 2, along x."""
    outer, inner = ((LONG_MM, 20.0, 20.0), (LONG_MM + 2.0, 16.0, 16.0))
    return solid_of(Manifold.cube(outer, True) - Manifold.cube(inner, True))


def _shaft() -> Solid:
    """Return a round bar of 12, along x."""
    return solid_of(cylinder(12.0, LONG_MM, 96).translate((0.0, 0.0, -LONG_MM / 2.0)).rotate((0.0, 90.0, 0.0)))


def _held(solid: Solid, beside_mm: float = 0.0) -> Weakest:
    """Return the weakest cut of a bar held at one end and pushed down 70 mm from there, beside its middle or not."""
    push = PartLoad(at_mm=(ARM_MM / 2.0, beside_mm, 0.0), force_n=(0.0, 0.0, -PUSH_N))
    found = weakest(solid, (known_case([push], [Support(at_mm=(-ARM_MM / 2.0, 0.0, 0.0))], "pushed"),), SOLID)
    assert found is not None
    return found


def test_a_hollow_box_bends_as_its_second_moment_says() -> None:
    """M c / I with I = (20⁴ - 16⁴) / 12: 5.3 MPa; on the skin of its top or bottom, within 5 %."""
    found = _held(_box())

    assert found.stress_mpa == pytest.approx(PUSH_N * ARM_MM * 10.0 / ((20.0**4 - 16.0**4) / 12.0), rel=0.05)
    assert abs(found.at_mm[2]) == pytest.approx(10.0, abs=0.1)


def test_a_round_shaft_bends_as_its_modulus_says() -> None:
    """32 M / (pi d³): 24.8 MPa at the wall, within 5 %."""
    found = _held(_shaft())

    assert found.stress_mpa == pytest.approx(32.0 * PUSH_N * ARM_MM / (math.pi * 12.0**3), rel=0.05)
    assert math.hypot(found.at_mm[1], found.at_mm[2]) == pytest.approx(6.0, abs=0.1)


def test_a_round_shaft_that_is_also_twisted_takes_the_greatest_principal_stress() -> None:
    """s/2 + sqrt(s²/4 + t²), with t = 16 T / (pi d³) for 60 N, 40 mm beside its middle: within 5 %."""
    bend = 32.0 * PUSH_N * ARM_MM / (math.pi * 12.0**3)
    twist = 16.0 * PUSH_N * 40.0 / (math.pi * 12.0**3)

    assert _held(_shaft(), 40.0).stress_mpa == pytest.approx(bend / 2.0 + math.sqrt(bend**2 / 4.0 + twist**2), rel=0.05)
