"""One concave cylinder: its sizes by geometry, two made one, and no boss taken for one."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.mesh import Solid
from planner.survey.bores.cylinder import Cylinder, edges_near_mm, measured, united
from planner.survey.bores.facets import Facets, Ints, facets_of
from planner.survey.bores.fitted_circles import EXACT, fitted
from tests.shapes import cylinder, solid_of, tube

UP = np.array([0.0, 0.0, 1.0])


def _wall(solid: Solid, facets: Facets, radius_mm: float) -> Ints:
    """Return the upright triangles all of whose corners are on a radius about z."""
    on = np.abs(np.linalg.norm(solid.corners_mm[:, :, :2], axis=2) - radius_mm) < 1e-6
    return np.flatnonzero(on.all(axis=1) & (np.abs(facets.normals[:, 2]) < 0.1))


def _cylinder(solid: Solid, facets: Facets, faces: Ints) -> Cylinder | None:
    """Measure a wall about z."""
    found = fitted(solid.vertices_mm[np.unique(solid.faces[faces])], UP, EXACT, hull=True)
    assert found is not None
    return measured(solid, facets, faces, found, 0.0)


def test_a_bore_has_the_sizes_of_its_polygon() -> None:
    """Of 10 mm through 24 corners, 8 deep: inscribed radius 5 cos(180 / 24 degrees) (geometry), a wall all round."""
    solid = tube(20, 10, 8, 24)
    facets = facets_of(solid)
    bore = _cylinder(solid, facets, _wall(solid, facets, 5.0))

    assert bore is not None
    assert bore.radius_mm == pytest.approx(5.0)
    assert bore.flat_mm == pytest.approx(5.0 * math.cos(math.pi / 24))
    assert (bore.facets_n, bore.coverage_deg) == (24, 360.0)
    assert bore.depth_mm == pytest.approx(8.0)
    assert bore.at(0.5 * (bore.low + bore.high)) == pytest.approx([0.0, 0.0, 4.0])


def test_a_boss_is_no_bore() -> None:
    """The same wall seen from outside."""
    solid = solid_of(cylinder(10, 8, 24))
    facets = facets_of(solid)

    assert _cylinder(solid, facets, _wall(solid, facets, 5.0)) is None


def test_two_halves_are_one_bore_again() -> None:
    """Triangles with x over and under nought make the whole one together; half of it reaches half round."""
    solid = tube(20, 10, 8, 24)
    facets = facets_of(solid)
    wall = _wall(solid, facets, 5.0)
    right = solid.corners_mm[wall].mean(axis=1)[:, 0] > 0.0
    halves = [_cylinder(solid, facets, wall[side]) for side in (right, ~right)]
    parts = [half for half in halves if half is not None]
    whole = united(solid, facets, parts, 0.0)

    assert [part.coverage_deg for part in parts] == pytest.approx([180.0, 180.0], abs=16.0)
    assert whole is not None
    assert (whole.coverage_deg, whole.facets_n, len(whole.faces)) == (360.0, 24, len(wall))


def test_the_nearest_place_of_an_edge_may_be_its_end() -> None:
    """From (1, -1) to (1, 1) the line comes to 1, and from (3, 4) to (6, 8) its end is nearest, at 5 (3-4-5)."""
    start, end = np.array([[1.0, -1.0], [3.0, 4.0]]), np.array([[1.0, 1.0], [6.0, 8.0]])

    assert edges_near_mm(start, end) == pytest.approx([1.0, 5.0])
