"""Whether a round band ends of its own."""

from __future__ import annotations

import numpy as np

from planner.mesh import Solid
from planner.survey.bores.facets import facets_of
from planner.survey.bores.round_ends import ends_are_its_own
from tests.shapes import Manifold, cylinder, solid_of

UP = np.array([0.0, 0.0, 1.0])


def _ends(solid: Solid, radius_mm: float, low: float, high: float) -> bool:
    """Return whether the band of triangles about z between two heights ends of its own."""
    middle = solid.corners_mm.mean(axis=1)
    near = np.linalg.norm(middle[:, :2], axis=1) < radius_mm * 1.01
    faces = np.flatnonzero(near & (middle[:, 2] > low) & (middle[:, 2] < high))
    assert len(faces) > 40
    return ends_are_its_own(solid, facets_of(solid), faces, UP, radius_mm, 0.002)


def test_a_bore_ends_at_its_mouths() -> None:
    """The wall of a bore of 10 mm through a block meets both faces square."""
    block = solid_of(Manifold.cube((30, 30, 12), True) - cylinder(10.0, 20, 96).translate((0, 0, -10)))

    assert _ends(block, 5.0, -6.0, 6.0)


def test_the_belt_of_a_hollow_ball_does_not() -> None:
    """A ring of triangles round the middle of a ball is nearly a cylinder, but the ball goes on at both rims."""
    hollow = solid_of(Manifold.cube((30, 30, 30), True) - Manifold.sphere(5.0, 96))

    assert not _ends(hollow, 5.0, -0.45, 0.45)
