"""What a mesh may hide: powers of Williams's corners, inner edges of a notch, and where the next mesh is made finer."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from planner.strength.elements.tetrahedra import quadratic, tetrahedra_of
from planner.strength.elements.unresolved import POWERS, TURNS_DEG, edge_mm, growth, hidden_in, inward_deg
from tests.shapes import cuboid
from tests.strength.small_parts import solid_for


def test_powers_are_williams_for_each_turn() -> None:
    """The least root of sin(p a) = -p sin(a), a the solid's angle in radians; worked out by another way than the table."""
    for turn_deg, power in zip(TURNS_DEG[1:-1], POWERS[1:-1], strict=True):
        angle = math.radians(180.0 + turn_deg)
        root = brentq(lambda p, a=angle: math.sin(p * a) + p * math.sin(a), 0.5, 0.99)
        assert power == pytest.approx(1.0 - root, abs=0.002)


def test_inner_edges_are_found_and_outer_ones_are_none() -> None:
    """A notch has two inner edges of 90 degrees, at x = 15 and 17, y = 3; a cuboid has none."""
    notched = tetrahedra_of(solid_for("notched"), 4.0)
    found = notched.nodes_mm[inward_deg(notched) > 45.0]

    assert inward_deg(tetrahedra_of(cuboid(8.0, 6.0, 5.0), 4.0)).max() == 0.0
    assert np.abs(found[:, 1] - 3.0).max() < 1e-3
    assert set(np.round(found[:, 0]).astype(int)) == {15, 17}


def test_what_an_inner_corner_may_hide_falls_with_its_edges() -> None:
    """With edges of w lines it is (2 w) to the power 0.4555, and nothing up to half a line; far from it hardly any."""
    cells = tetrahedra_of(solid_for("notched"), 4.0)
    at_corner = (inward_deg(cells)[cells.cells[:, :4]] > 89.0).any(axis=1)
    wide = edge_mm(cells)[at_corner] / 0.45

    assert growth(cells, 0.45)[at_corner] == pytest.approx(np.maximum(2.0 * wide, 1.0) ** 0.4555, rel=1e-3)
    assert growth(cells, 20.0).max() == 1.0
    assert growth(cells, 0.45)[~at_corner].max() < 1.3


def test_a_place_that_may_hide_more_is_made_finer_first() -> None:
    """Of two tetrahedra with the same share the longer one may hide more; what is far weaker is left as it is."""
    small = np.array([[0.0, 0, 0], [0.1, 0, 0], [0, 0.1, 0], [0, 0, 0.1]])
    points = np.concatenate([small, 20.0 * small + 5.0, 20.0 * small + 15.0])
    cells = quadratic(points, np.arange(12).reshape(3, 4))
    at_mm = np.repeat(cells.corners_mm.mean(axis=1), 4, axis=0)
    hidden = hidden_in(cells, at_mm, np.repeat([50.0, 50.0, 5.0], 4), 0.45)

    assert hidden.most_percent == pytest.approx(50.0 * growth(cells, 0.45)[1])
    assert hidden.most_percent > 1.05 * 50.0
    assert hidden.fine
    assert np.linalg.norm(np.subtract(hidden.places[0][0], 5.5)) < 1.0
    assert all(np.linalg.norm(np.subtract(at, 15.5)) > 2.0 for at, _ in hidden.places)
    assert hidden_in(cells, at_mm, np.repeat([50.0, 20.0, 5.0], 4), 0.45).most_percent == 50.0
