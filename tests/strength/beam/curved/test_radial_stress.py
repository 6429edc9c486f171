"""Stress across a bend against Golovin's exact solution, and a hook whose layers it pulls apart."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from planner.strength.beam.curved.curved_way import Curve
from planner.strength.beam.curved.radial_stress import radial_stress_mpa
from planner.strength.beam.cut_stress import stress_in
from planner.strength.beam.skin_and_core import zones_of
from planner.strength.criterion import Strengths, index

DEEP_MM, WIDE_MM = 8.0, 6.0
BOX = shapely.box(-WIDE_MM / 2, -DEEP_MM / 2, WIDE_MM / 2, DEEP_MM / 2)
INWARD = np.array([0.0, 1.0])


def _golovin_mpa(inner: float, outer: float, moment_n_mm: float) -> float:
    """Return the greatest radial stress of a curved rectangle in pure bending (Timoshenko and Goodier, section 29)."""
    a, b, r = inner, outer, np.linspace(inner, outer, 4001)
    n = (b * b - a * a) ** 2 - 4 * a * a * b * b * math.log(b / a) ** 2
    stress = (a * a * b * b / r**2) * math.log(b / a) + b * b * np.log(r / b) + a * a * np.log(a / r)
    return float(np.abs(4 * moment_n_mm / (n * WIDE_MM) * stress).max())


@pytest.mark.parametrize("ratio", [0.65, 0.75, 1.0, 1.5, 3.0, 5.0])
def test_a_rectangle_is_pulled_apart_as_golovin_says(ratio: float) -> None:
    """R / h of 0.65 to 5, opened by 1000 N mm: within 5 %, as a pull; and closed as much, as a push."""
    curve, radius = Curve(inward=INWARD, centre_mm=ratio * DEEP_MM), ratio * DEEP_MM
    wanted = _golovin_mpa(radius - DEEP_MM / 2, radius + DEEP_MM / 2, 1000.0)
    opened, closed = (
        radial_stress_mpa(zones_of(BOX, 99.0, 1.0), curve, np.array([300.0, sign * 1000.0])) for sign in (1.0, -1.0)
    )

    assert opened == pytest.approx(wanted, rel=0.05)
    assert closed == pytest.approx(-opened)


def test_soft_infill_leaves_the_pull_to_the_walls() -> None:
    """A web of a quarter of the width between two flanges: by hand at least 3 times, as the flanges carry the fibres."""
    curve, bends = Curve(inward=INWARD, centre_mm=DEEP_MM), np.array([0.0, 1000.0])
    solid, hollow = (radial_stress_mpa(zones_of(BOX, skin, 0.05), curve, bends) for skin in (99.0, 0.75))

    assert hollow > 3.0 * solid


def test_layers_square_to_the_radius_decide_where_they_are_weak_enough() -> None:
    """R / h of 0.65: fibres take 4 times the radial stress, so that layers of a tenth of the strength part first."""
    curve, bends = Curve(inward=INWARD, centre_mm=0.65 * DEEP_MM), np.array([1000.0, 0.0, 0.0])
    tensors = stress_in(zones_of(BOX, 99.0, 1.0), np.zeros(3), bends, curve=curve).tensors_mpa
    weak = Strengths(along_mpa=40.0, across_mpa=4.0, shear_mpa=4.0)
    found = index(tensors, np.array([0.0, 1.0, 0.0]), weak)

    assert int(found.argmax()) == len(tensors) - 1
    assert tensors[-1, 1, 1] > 0.0
