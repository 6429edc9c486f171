"""Ways through a part along its own axes, however it is turned."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.beam.end_to_end import end_to_end
from tests.shapes import Manifold, solid_of


@pytest.mark.parametrize("turn_deg", [0.0, 33.0])
def test_ways_go_square_to_the_largest_faces(turn_deg: float) -> None:
    """A bar of 60 by 10 by 6: ways of 6, 10 and 60 mm, in that order, turned as the bar is."""
    bar = solid_of(Manifold.cube((60.0, 10.0, 6.0)).rotate((0.0, turn_deg, turn_deg)))
    long_mm = [float(np.linalg.norm(np.subtract(end, start))) for start, end in end_to_end(bar)]

    assert long_mm == pytest.approx([6.0, 10.0, 60.0], rel=0.02)
