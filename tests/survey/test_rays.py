"""Rays: the first face that each meets, with distances by plane geometry."""

from __future__ import annotations

import numpy as np
import pytest

from planner.survey.rays import face_areas, face_normals, first_hits
from tests.shapes import cuboid


def test_a_ray_meets_the_near_face_at_its_exact_distance() -> None:
    """On a box of 10 x 20 x 30 from 5 mm before it: 5 mm straight, 5 sqrt(2) at 45 degrees; a ray past it meets none."""
    solid = cuboid(10, 20, 30)
    low, high = solid.vertices_mm.min(axis=0), solid.vertices_mm.max(axis=0)
    middle = (low + high) / 2
    start = np.array([low[0] - 5.0, middle[1], middle[2] + 0.3])
    slanting = np.array([1.0, 1.0, 0.0]) / np.sqrt(2.0)
    ways = np.array([[1.0, 0.0, 0.0], slanting, [-1.0, 0.0, 0.0]])
    hits = first_hits(solid, face_normals(solid), np.tile(start, (3, 1)), ways)

    assert hits.ray.tolist() == [0, 1]
    assert hits.distance_mm == pytest.approx([5.0, 5.0 * np.sqrt(2.0)])


def test_normals_are_units_that_point_outward_and_areas_sum_to_the_surface() -> None:
    """A box of 10 x 20 x 30 has 2200 mm2; its unit normals, weighted by area, sum to zero (divergence theorem)."""
    solid = cuboid(10, 20, 30)
    normals, areas = face_normals(solid), face_areas(solid)
    outward = np.einsum("ij,ij->i", normals, solid.corners_mm.mean(axis=1) - solid.vertices_mm.mean(axis=0))

    assert areas.sum() == pytest.approx(2200.0)
    assert np.linalg.norm(normals, axis=1) == pytest.approx(np.ones(len(normals)))
    assert np.abs(normals.T @ areas).max() < 1e-9
    assert (outward > 0).all()
