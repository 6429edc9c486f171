"""Ways through a part along its own axes, however it is turned."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mesh import Solid
from planner.strength.beam.cut_shapes import cuts_along
from planner.strength.beam.end_to_end import end_to_end, leaves
from tests.shapes import Manifold, solid_of


@pytest.mark.parametrize("turn_deg", [0.0, 33.0])
def test_ways_go_square_to_the_largest_faces(turn_deg: float) -> None:
    """A bar of 60 by 10 by 6: ways of 6, 10 and 60 mm, in that order, turned as the bar is."""
    bar = solid_of(Manifold.cube((60.0, 10.0, 6.0)).rotate((0.0, turn_deg, turn_deg)))
    long_mm = [float(np.linalg.norm(np.subtract(end, start))) for start, end in end_to_end(bar)]

    assert long_mm == pytest.approx([6.0, 10.0, 60.0], rel=0.02)


def test_a_way_through_the_air_beside_a_wide_angle_leaves_it() -> None:
    """From the top of a wall of 120 by 4 to the edge of its foot: never more than 8 mm off, yet outside all along."""
    angle = solid_of(Manifold.cube((20.0, 120.0, 4.0)) + Manifold.cube((4.0, 120.0, 40.0)))
    bar = solid_of(Manifold.cube((60.0, 120.0, 4.0)))
    shares = tuple(float(x) for x in np.linspace(0.05, 0.95, 10))

    def left(solid: Solid, start: tuple[float, float, float], end: tuple[float, float, float]) -> bool:
        return leaves(list(cuts_along(solid, np.array(start), np.array(end), shares)), len(shares))

    assert left(angle, (2.0, 60.0, 38.0), (20.0, 60.0, 4.0))
    assert not left(bar, (0.0, 60.0, 2.0), (60.0, 60.0, 4.0))
