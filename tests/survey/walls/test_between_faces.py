"""Walls seen from the faces, by closed forms."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mesh import Solid
from planner.survey.walls import between_faces as faces_room
from planner.survey.walls.between_faces import between_faces, lattice, samples, stand_ins
from planner.survey.walls.solid_for_walls import shape_of
from tests.shapes import Manifold, ball, cuboid, solid_of, tube


def test_samples_lie_in_their_triangles_and_share_all_of_the_surface() -> None:
    """Seven points in each of two triangles, none outside; the samples of a cuboid stand for its whole surface."""
    corners = np.array([[[0.0, 0, 0], [4, 0, 0], [0, 3, 0]], [[9.0, 0, 0], [9, 4, 0], [9, 0, 3]]])
    points, face = lattice(corners, np.array([7, 7]))
    _, _, area = samples(shape_of(cuboid(20, 10, 4)))

    assert np.bincount(face).tolist() == [7, 7]
    assert (points[:7, 0] / 4 + points[:7, 1] / 3 <= 1.0).all()
    assert (points[:7] >= 0).all()
    assert area.sum() == pytest.approx(2 * (200 + 80 + 40))


def test_behind_every_place_of_a_plate_is_its_thickness() -> None:
    """From the middles of both large faces of 60 x 50 x 1.5 mm: 1.5 mm, straight through."""
    shape = shape_of(cuboid(60, 50, 1.5))
    points, face, area = samples(shape)
    middle = (np.abs(points[:, :2] - [30, 25]) < 20).all(axis=1) & (np.abs(shape.normals[face, 2]) > 0.5)
    pairs = between_faces(shape, points[middle], face[middle], area[middle])

    assert len(pairs) == int(middle.sum())
    assert pairs.thickness_mm == pytest.approx(1.5, rel=1e-6)
    assert pairs.lean_rad.max() < 1e-3


def test_a_ball_between_leaning_faces_touches_both() -> None:
    """Faces that lean by phi: a ball on one at the distance x from their line is 2 x tan(phi / 2) wide (geometry)."""
    wedge = np.array([[0, 0, 0], [50, 0, 0], [50, 30, 0], [0, 30, 0], [0, 0, 8], [0, 30, 8.0]])
    shape = shape_of(solid_of(Manifold.hull_points(wedge)))
    points, face, area = samples(shape)
    own = (shape.normals[face, 2] < -0.9) & (points[:, 0] > 25) & (points[:, 0] < 45) & (np.abs(points[:, 1] - 15) < 8)
    pairs = between_faces(shape, points[own], face[own], area[own])
    wanted = 2 * (50 - pairs.here[:, 0]) * np.tan(np.arctan2(8, 50) / 2)

    assert len(pairs) > 100
    assert pairs.thickness_mm == pytest.approx(wanted, rel=1e-3)


def test_balls_in_a_tube_fit_between_its_circles() -> None:
    """Between 96-gons on circles of 13 and 15 mm: corners and flats, r and r cos(pi / 96), bound every ball (geometry)."""
    shape = shape_of(tube(30.0, 26.0, 20.0))
    points, face, area = samples(shape)
    own = np.abs(shape.normals[face, 2]) < 0.1
    pairs = between_faces(shape, points[own], face[own], area[own])
    middle = np.abs(pairs.here[:, 2] - 10.0) < 5.0

    flat = np.cos(np.pi / 96)

    assert pairs.thickness_mm[middle].max() <= 15 - 13 * flat + 1e-6
    assert pairs.thickness_mm[middle].min() >= 15 * flat - 13 - 1e-6


def test_small_triangles_share_samples_and_large_ones_do_not(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of 12,800 triangles on a ball and 12 on a cuboid, 2,000 are sampled at most, each of the cuboid's among them.

    The samples stand for the whole surface, and whoever stands in for a triangle mostly lies within a share of it.
    """
    monkeypatch.setattr(faces_room, "SHARED_FROM", 2000)
    monkeypatch.setattr(faces_room, "CORNERS_MOST", 1000)
    fine, block = ball(40.0, 160), cuboid(60, 50, 1.5)
    both = Solid(
        name="both",
        vertices_mm=np.vstack([fine.vertices_mm, block.vertices_mm + 100.0]),
        faces=np.vstack([fine.faces, block.faces + len(fine.vertices_mm)]),
        sha256="both",
    )
    shape = shape_of(both)
    _, face, area = samples(shape)
    mine = stand_ins(shape)
    small = np.arange(len(fine.faces))
    away = np.linalg.norm(both.corners_mm[small].mean(axis=1) - both.corners_mm[mine[small]].mean(axis=1), axis=1)
    share_mm = np.sqrt(shape.areas_mm2.sum() / 2000)

    assert len(np.unique(face)) <= 2000 < len(small)
    assert set(range(len(small), len(both.faces))) <= set(face.tolist())
    assert area.sum() == pytest.approx(shape.areas_mm2.sum())
    assert np.median(away) < share_mm
