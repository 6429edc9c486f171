"""The grid keeps the nearest surface at every pixel."""

from __future__ import annotations

import numpy as np
import pytest

from planner.output.line_drawing.view_grid import depth_on, grid_over, looking


def test_a_slope_is_as_deep_as_its_plane() -> None:
    """Every pixel of a triangle has the depth of the plane z = 10 + x / 2 - y / 4, and no other pixel has any."""
    x, y = np.array([0.0, 40.0, 0.0]), np.array([0.0, 0.0, 20.0])
    flat = np.column_stack([x, y, 10 + x / 2 - y / 4])
    grid = grid_over(flat, 200)
    depth = depth_on(grid, grid.px(flat), np.array([[0, 1, 2]]))
    row, column = np.nonzero(np.isfinite(depth))
    at_x, at_y = column * grid.step_mm + grid.low_mm[0], row * grid.step_mm + grid.low_mm[1]
    assert depth[row, column] == pytest.approx(10 + at_x / 2 - at_y / 4)
    assert len(row) * grid.step_mm**2 == pytest.approx(400.0, rel=0.025)
    assert np.all(at_x / 40 + at_y / 20 <= 1 + 1e-6)


def test_of_two_triangles_the_nearer_is_kept() -> None:
    """The order in which they are given does not matter."""
    one = np.array([[0.0, 0.0, 5.0], [10.0, 0.0, 5.0], [0.0, 10.0, 5.0]])
    flat = np.vstack([one, one + np.array([0.0, 0.0, -2.0])])
    grid = grid_over(flat, 60)
    for faces in ([[0, 1, 2], [3, 4, 5]], [[3, 4, 5], [0, 1, 2]]):
        depth = depth_on(grid, grid.px(flat), np.array(faces))
        assert set(depth[np.isfinite(depth)].round(9)) == {3.0}


def test_a_view_is_right_handed() -> None:
    """From any side, right, up and toward the eye are a right-handed frame."""
    for way in ((0, 0, -1), (0, 0, 1), (1, 2, -3), (-0.62, 0.68, -0.39)):
        view = looking(way)
        assert np.cross(view.right, view.up) == pytest.approx(-view.sight)
