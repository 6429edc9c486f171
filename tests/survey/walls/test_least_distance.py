"""A pair of points settled where both sides are nearest."""

from __future__ import annotations

import numpy as np
import pytest

from planner.survey.walls.least_distance import settled
from planner.survey.walls.solid_for_walls import Pairs, shape_of
from tests.shapes import Manifold, cuboid, solid_of


def _pair(here: list[float], there: list[float]) -> Pairs:
    """Return one pair between an upper and a lower face."""
    ends = np.array([here]), np.array([there])
    return Pairs(
        here=ends[0],
        there=ends[1],
        toward=np.array([[0.0, 0, 1]]),
        opposite=np.array([[0.0, 0, -1]]),
        thickness_mm=np.linalg.norm(ends[0] - ends[1], axis=1),
        area_mm2=np.ones(1),
        face=np.zeros(1, np.int64),
        inner=np.zeros(1, dtype=bool),
    )


def test_a_slanted_pair_settles_straight_across_a_plate() -> None:
    """Between (10, 10) above and (10.6, 10) below a plate of 2 mm: it is 2 mm thick, wherever one looks."""
    pair = settled(shape_of(cuboid(20, 20, 2)), _pair([10, 10, 2], [10.6, 10, 0]))

    assert pair.thickness_mm[0] == pytest.approx(2.0)
    assert pair.here[0, :2] == pytest.approx(pair.there[0, :2])
    assert pair.lean_rad[0] == pytest.approx(0.0, abs=1e-6)


def test_what_is_settled_is_never_thicker() -> None:
    """On a wedge a pair only moves to where the matter is no thicker, and both ends stay on the surface."""
    wedge = np.array([[0, 0, 0], [50, 0, 0], [50, 30, 0], [0, 30, 0], [0, 0, 8], [0, 30, 8], [50, 0, 2], [50, 30, 2.0]])
    shape = shape_of(solid_of(Manifold.hull_points(wedge)))
    before = _pair([20, 15, 8 - 6 * 20 / 50], [20.5, 15, 0])
    after = settled(shape, before)

    assert after.thickness_mm[0] <= before.thickness_mm[0]
    assert after.there[0, 2] == pytest.approx(0.0, abs=1e-6)
    assert after.here[0, 2] == pytest.approx(8 - 6 * after.here[0, 0] / 50, abs=1e-6)
