"""A solid made ready: how its edges bend, and which corners stand out inwards."""

from __future__ import annotations

import numpy as np
import pytest

from planner.survey.walls.solid_for_walls import Pairs, shape_of, together
from tests.shapes import Manifold, cuboid, solid_of

STEP = solid_of(Manifold.cube((20, 10, 2)) + Manifold.cube((10, 10, 6)))
"""A step: one edge, 10 mm long, points inwards."""


def _bends(x: int) -> np.ndarray:
    """Return the bends of a solid's edges that are no seams within a face, in degrees."""
    bend = np.degrees(shape_of(cuboid(20, 10, 6) if x == 0 else STEP).edges.bend_rad)
    return bend[np.abs(bend) > 1.0]


def test_edges_of_a_cuboid_point_outwards() -> None:
    """All twelve bend by 90 degrees."""
    assert _bends(0) == pytest.approx(np.full(12, -90.0))


def test_the_edge_of_a_step_points_inwards() -> None:
    """One edge bends inwards by 90 degrees, and its two ends are inner corners, which no corner of a cuboid is."""
    inner = _bends(1)[_bends(1) > 0]
    corners = STEP.vertices_mm[shape_of(STEP).inner_corners]

    assert inner == pytest.approx([90.0])
    assert corners[:, [0, 2]] == pytest.approx(np.array([[10.0, 2.0]] * 2))
    assert not shape_of(cuboid(20, 10, 6)).inner_corners.any()


def test_a_ray_goes_to_the_other_side() -> None:
    """From the middle of a cuboid 3 mm up, 10 mm along, and a ray that leads nowhere is not asked."""
    free, face = shape_of(cuboid(20, 10, 6)).free_mm(
        np.array([[10.0, 5.0, 3.0]] * 3), np.array([[0.0, 0, 1], [1.0, 0, 0], [0.0, 0, 0]])
    )

    assert free == pytest.approx([3.0, 10.0, np.inf])
    assert face[2] == -1


def test_sides_that_face_away_from_each_other_do_not_lean() -> None:
    """Normals up and down lean by nothing, up and sideways by 90 degrees; lots put together keep their order."""
    up, down, aside = np.eye(3)[2], -np.eye(3)[2], np.eye(3)[0]

    def pair(opposite: np.ndarray) -> Pairs:
        return Pairs(
            here=np.array([[0.0, 0, 2]]),
            there=np.zeros((1, 3)),
            toward=up[None],
            opposite=opposite[None],
            thickness_mm=np.array([2.0]),
            area_mm2=np.ones(1),
            face=np.zeros(1, np.int64),
            inner=np.zeros(1, dtype=bool),
        )

    both = together(pair(down), pair(aside))

    assert np.degrees(both.lean_rad) == pytest.approx([0.0, 90.0])
    assert both.middle == pytest.approx(np.array([[0.0, 0, 1]] * 2))
    assert len(both.only(np.array([True, False]))) == 1
