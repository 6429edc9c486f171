"""Walls: known solids give their known thickness; edges and corners are no walls."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.mesh import Solid
from planner.survey import Walls
from planner.survey.bores.bores import bores_of
from planner.survey.walls.walls import walls_of
from tests.shapes import Manifold, ball, bored_plate, cuboid, solid_of, tube


def _walls(solid: Solid) -> Walls:
    """Measure walls as a survey does."""
    return walls_of(solid, bores_of(solid)[0])


@settings(max_examples=25, deadline=None)
@given(x=st.floats(0.5, 80), y=st.floats(0.5, 80), z=st.floats(0.5, 80))
def test_a_cuboid_is_as_thick_as_its_shortest_side(x: float, y: float, z: float) -> None:
    """Least wall of a cuboid is min(x, y, z), exactly (geometry); its edges are never thin."""
    least = _walls(cuboid(x, y, z)).least

    assert least is not None
    assert least.thickness_mm == pytest.approx(min(x, y, z), rel=1e-6)


@pytest.mark.parametrize("wall", [0.3, 0.8, 1.2, 3.0])
def test_a_tube_is_as_thick_as_its_wall(wall: float) -> None:
    """Between two n-gons on circles, facets are r (1 - ...) apart: wall cos(pi/n), within 1 % of the drawn wall."""
    least = walls_of(tube(20.0, 20.0 - 2 * wall, 30.0), ()).least

    assert least is not None
    assert least.thickness_mm == pytest.approx(wall * math.cos(math.pi / 96), rel=0.01)


def test_a_ball_has_no_thin_wall() -> None:
    """The inscribed ball of a ball is the ball."""
    least = _walls(ball(20.0)).least

    assert least is not None
    assert least.thickness_mm == pytest.approx(20.0, rel=0.01)


def test_a_feather_edge_is_told_from_a_wall() -> None:
    """A wedge that runs out to an edge has no thin wall; the same wedge cut off has one as thick as its end."""
    sharp = [[0, 0, 0], [50, 0, 0], [50, 30, 0], [0, 30, 0], [0, 0, 8], [0, 30, 8.0]]
    blunt = [*sharp, [50, 0, 1.0], [50, 30, 1.0]]
    feather = _walls(solid_of(Manifold.hull_points(np.array(sharp))))
    wall = _walls(solid_of(Manifold.hull_points(np.array(blunt)))).least

    assert feather.feather_n > 0
    assert feather.least is not None
    assert feather.least.thickness_mm > 5.0
    assert wall is not None
    assert wall.thickness_mm == pytest.approx(1.0, rel=0.02)


def test_a_small_thin_rib_is_found_among_many_triangles() -> None:
    """A rib of 0.6 x 2 mm on a ball of many triangles decides the least wall, at its place."""
    body = Manifold.sphere(40, 160) + Manifold.cube((0.6, 2, 41.0)).translate((0, -1, 0))
    least = _walls(solid_of(body)).least

    assert least is not None
    assert least.thickness_mm == pytest.approx(0.6, abs=0.01)
    assert least.at_mm[2] > 39.0


def test_a_web_beside_a_bore_belongs_to_the_bore() -> None:
    """A bore 1 mm from an edge: the web counts among all walls, not among those away from bores."""
    walls = _walls(bored_plate(40, 30, 6, [(3.5, 15, 5.0, 64)]))

    assert walls.least is not None
    assert walls.least_clear is not None
    assert walls.least.thickness_mm == pytest.approx(1.0, abs=0.02)
    assert walls.least_clear.thickness_mm == pytest.approx(6.0, abs=1e-6)


def test_area_below_a_limit_is_the_area_of_the_thin_faces() -> None:
    """A plate of 40 x 30 x 0.8 mm has both its faces, 2400 mm2, below 0.9 mm, and nothing below 0.7."""
    walls = _walls(cuboid(40, 30, 0.8))

    assert walls.area_below_mm2(0.9) == pytest.approx(2400.0, rel=0.01)
    assert walls.area_below_mm2(0.7) == 0.0


def test_every_face_has_its_own_thickness_for_the_heat_map() -> None:
    """On a step of 2 and 6 mm each upper face has its height; faces of the sides have the other extents."""
    step = solid_of(Manifold.cube((20, 10, 2)) + Manifold.cube((10, 10, 6)))
    walls = walls_of(step, ())
    upper = step.trimesh.face_normals[:, 2] > 0.99
    height = step.corners_mm[:, :, 2].mean(axis=1)

    assert walls.of_face_mm[upper] == pytest.approx(height[upper], abs=1e-4)
    assert len(walls.of_face_mm) == step.triangles_n
