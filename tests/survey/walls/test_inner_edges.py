"""Walls seen from edges and corners that point inwards."""

from __future__ import annotations

import numpy as np
import pytest

from planner.survey.walls.inner_edges import from_inner_edges
from planner.survey.walls.shape import shape_of
from tests.shapes import Manifold, cuboid, solid_of


def _grooved(left_mm: float) -> Manifold:
    """Return a plate of 30 x 20 x 6 with a groove of 60 degrees that leaves so much under its bottom line."""
    half = (8 - left_mm) * np.tan(np.radians(30.0))
    cut = np.array(
        [[15, y, left_mm] for y in (-1, 21)] + [[15 + side * half, y, 8] for side in (-1, 1) for y in (-1, 21)]
    )
    return Manifold.cube((30, 20, 6)) - Manifold.hull_points(cut)


@pytest.mark.parametrize("left_mm", [0.5, 0.8])
def test_under_a_groove_is_what_it_leaves(left_mm: float) -> None:
    """From the bottom line of a V the lower face is nearest, straight down."""
    pairs = from_inner_edges(shape_of(solid_of(_grooved(left_mm))))
    first = int(np.argmin(pairs.thickness_mm))

    assert pairs.thickness_mm[first] == pytest.approx(left_mm, rel=1e-4)
    assert pairs.here[first, [0, 2]] == pytest.approx([15.0, left_mm], abs=1e-4)
    assert pairs.there[first, 2] == pytest.approx(0.0, abs=1e-4)
    assert pairs.inner.all()


def test_under_a_drill_point_is_what_it_leaves() -> None:
    """A blind hole that ends in a cone 0.7 mm above the lower face."""
    cone = Manifold.cylinder(3.0, 0.0, 3.0, 32).translate((10, 10, 0.7))
    pairs = from_inner_edges(
        shape_of(solid_of(Manifold.cube((20, 20, 6)) - cone - Manifold.cylinder(5, 3, 3, 32).translate((10, 10, 3.7))))
    )

    assert pairs.thickness_mm.min() == pytest.approx(0.7, rel=1e-3)


def test_a_cuboid_has_no_inner_edges() -> None:
    """Nothing points inwards, so nothing is seen from there."""
    assert len(from_inner_edges(shape_of(cuboid(20, 10, 4)))) == 0
