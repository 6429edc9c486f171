"""Cuts across solids have the shape that was drawn."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.beam.cut_shapes import cuts_along, printed_zones
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.criterion import Strengths
from tests.shapes import bored_plate

STUFF = BeamStuff(
    strengths=Strengths(along_mpa=40.0, across_mpa=25.0, shear_mpa=15.0),
    normal=(0.0, 0.0, 1.0),
    side_mm=2.0,
    level_mm=1.0,
    infill_share=0.0,
)


def test_a_bar_is_cut_square_and_aslant() -> None:
    """A bar of 10 by 8: 80 mm² across; 80 √2 where the way leaves it at 45 degrees."""
    bar = bored_plate(60, 10, 8, [])
    middle = bar.bounds_mm.mean(axis=0)
    square = list(cuts_along(bar, middle - [20, 0, 0], middle + np.array([20, 0, 0]), (0.0, 0.5, 1.0)))
    slant = list(cuts_along(bar, middle - [1, 0, 1], middle + np.array([1, 0, 1]), (0.5,)))

    assert [shape.area for _, shape, _ in square] == pytest.approx([80.0] * 3)
    assert slant[0][1].area == pytest.approx(80 * 2**0.5, rel=1e-4)
    assert square[1][0].at_mm == pytest.approx(middle)


def test_solid_layers_and_contours_have_their_own_thickness() -> None:
    """2 mm at the sides and 1 mm above and below leave a core of 6 by 6; at twice the size 8 by 7, as drawn."""
    bar = bored_plate(60, 10, 8, [])
    middle = bar.bounds_mm.mean(axis=0)
    ((cut, shape, _),) = cuts_along(bar, middle, middle + np.array([1, 0, 0]), (0.0,))

    assert printed_zones(shape, cut, STUFF, 1.0).core.area == pytest.approx(36.0)
    assert printed_zones(shape, cut, STUFF, 2.0).core.area == pytest.approx(56.0)
    assert np.ptp(np.reshape(printed_zones(shape, cut, STUFF, 1.0).core.bounds, (2, 2)), axis=0) == pytest.approx(
        [6, 6]
    )
