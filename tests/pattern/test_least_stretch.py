"""Surfaces that cannot be unrolled are laid flat with little stretch, and the stretch is told."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.pattern.least_stretch import least_stretch, stretch
from tests.pattern.surfaces import cap, shell


@pytest.mark.parametrize(("degrees", "high"), [(180.0, 31.0), (242.0, 26.0), (90.0, 60.0)])
def test_what_can_be_unrolled_is_not_stretched(degrees: float, high: float) -> None:
    """A cylinder and cones come out without stretch: their triangles' own plane development has none (Gauss)."""
    patch = shell(31, high, 100, degrees)
    found = stretch(patch, least_stretch(patch))

    assert found.most_percent < 0.01
    assert found.turned_over_n == 0


@pytest.mark.parametrize("degrees", [15.0, 30.0, 45.0])
def test_a_cap_is_stretched_little_more_than_it_must(degrees: float) -> None:
    """Least possible for a cap of angle α: longest over shortest is α / sin α (Milnor 1969, American Mathematical Monthly 76, 1101).

    The map that is as rigid as possible asks for the least sum of squares instead: at most 1.2 times that, as logarithms.
    """
    patch = cap(60, degrees)
    found = stretch(patch, least_stretch(patch))
    least = math.log(math.radians(degrees) / math.sin(math.radians(degrees)))

    assert found.turned_over_n == 0
    assert math.log(found.longest.max() / found.shortest.min()) < 1.2 * least


def test_stretch_is_that_of_the_map() -> None:
    """A plate stretched by 3 % one way and shrunk by 2 % the other has just these (by hand)."""
    patch = cap(1e7, 1e-4)  # flat, 17 mm across
    flat = patch.vertices_mm[:, :2] * [1.03, 0.98]
    found = stretch(patch, flat)

    assert found.longest == pytest.approx(np.full(len(patch.faces), 1.03), abs=1e-6)
    assert found.shortest == pytest.approx(np.full(len(patch.faces), 0.98), abs=1e-6)
    assert found.turned_over_n in (0, len(patch.faces))
