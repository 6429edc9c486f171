"""A piece's exact place and size from the edges of its beads: stretched, turned and moved by known amounts."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from planner.gcode.copies.piece import Sections
from planner.gcode.copies.pose_fit import EDGES_LEAST, fitted
from tests.gcode.copies.rings import ELBOW, pose, printed, prism, rings, turned
from tests.shapes import cuboid


@pytest.mark.parametrize(("x_share", "y_share"), [(1.0, 1.0), (1.02, 1.0), (1.0, 0.985)])
def test_place_turn_and_stretch_are_those_of_the_print(x_share: float, y_share: float) -> None:
    """Printed stretched, then turned by 30 degrees and moved to (100, 60); looked for 0.4 mm and a degree beside it.

    By hand: the part's corner (18, 0) lies at 30 degrees and 18 times the stretch from (100, 60).
    """
    stretched = shapely.transform(ELBOW, lambda p: p * (x_share, y_share))
    lines = turned(rings(stretched), 30.0, (100.0, 60.0))
    near = pose(deg=-29.0)
    near = pose(deg=-29.0, at_mm=tuple(0.4 - near.matrix @ (100.0, 60.0)))
    fit = fitted(printed(4, lambda _: lines), Sections.of(prism(ELBOW, 4)), near)
    corner = 18.0 * x_share * np.array([math.cos(math.pi / 6), math.sin(math.pi / 6)]) + (100.0, 60.0)

    assert (fit.x_share, fit.y_share) == pytest.approx((x_share, y_share), abs=0.002)
    assert fit.pose.matrix @ corner + fit.pose.offset_mm == pytest.approx((18.0, 0.0), abs=0.05)
    assert fit.edges_n > EDGES_LEAST


def test_without_edges_the_pose_stays_and_nothing_is_said_of_the_size() -> None:
    """Lines 30 mm beside the part have no edge near its outline: the pose comes back, its size as planned."""
    near = pose()
    beside = [((50.0, 50.0), (60.0, 50.0))]
    fit = fitted(printed(3, lambda _: beside), Sections.of(cuboid(10, 8, 0.64)), near)

    assert (fit.x_share, fit.y_share, fit.edges_n) == (1.0, 1.0, 0)
    assert np.array_equal(fit.pose.matrix, near.matrix)
    assert np.array_equal(fit.pose.offset_mm, near.offset_mm)
