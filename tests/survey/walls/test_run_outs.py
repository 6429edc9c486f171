"""Run-outs: sharp edges, told from walls."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.survey.walls.between_faces import between_faces, samples
from planner.survey.walls.run_outs import run_outs_of, running_out
from planner.survey.walls.solid_for_walls import Shape, shape_of
from tests.shapes import Manifold, cuboid, solid_of


def _wedge(end_mm: float) -> Shape:
    """Return a wedge of 50 x 30 mm from 8 mm down to so much at its end."""
    low = [[0, 0, 0], [50, 0, 0], [50, 30, 0], [0, 30, 0], [0, 0, 8], [0, 30, 8.0]]
    return shape_of(solid_of(Manifold.hull_points(np.array([*low, [50, 0, end_mm], [50, 30, end_mm]]))))


def test_the_edge_of_a_wedge_has_its_angle_and_length() -> None:
    """8 mm over 50 are atan(8 / 50) = 9.1 degrees, along 30 mm, at the far end (geometry)."""
    (edge,) = run_outs_of(_wedge(0.0))

    assert edge.angle_deg == pytest.approx(math.degrees(math.atan2(8, 50)), abs=1e-6)
    assert edge.length_mm == pytest.approx(30.0)
    assert edge.at_mm == pytest.approx((50.0, 15.0, 0.0))
    assert (0.0, 0.0, -1.0) in edge.outward


def test_square_edges_do_not_run_out() -> None:
    """Neither those of a cuboid, nor those of a wedge that is cut off."""
    assert run_outs_of(shape_of(cuboid(20, 10, 4))) == ()
    assert run_outs_of(_wedge(1.5)) == ()


def test_only_the_sharp_wedge_runs_out() -> None:
    """Near its edge all samples thin out to nothing; those of the wedge that ends 1.5 mm thick are walls."""
    for end_mm, runs_out in ((0.0, True), (1.5, False)):
        shape = _wedge(end_mm)
        pairs = between_faces(shape, *samples(shape))
        near = (pairs.here[:, 0] > 40) & (pairs.here[:, 0] < 49) & (np.abs(pairs.here[:, 1] - 15) < 10)
        out = running_out(shape, pairs)[near & (np.abs(pairs.toward[:, 2]) > 0.9)]
        assert len(out) > 100
        assert out.mean() > 0.95 if runs_out else not out.any()
