"""Bodies of one mesh: how near they lie, by geometry."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.mesh import Solid
from planner.survey.openings.inner_gap import inner_gap
from tests.shapes import Manifold, cylinder, solid_of


def _bodies(*bodies: Manifold) -> Solid:
    """Return several bodies as one mesh."""
    return replace(solid_of(Manifold.compose(list(bodies))), bodies_n=len(bodies))


def test_bodies_of_one_mesh_lie_apart_where_they_are_nearest() -> None:
    """A pin of 10 mm in a ring of 10.8 beside a cube 1 mm off: 0.4 mm; both have corners on one ray."""
    ring = cylinder(20.0, 8.0, 96) - cylinder(10.8, 20.0, 96).translate((0, 0, -5))
    pin = cylinder(10.0, 8.0, 96)
    gap = inner_gap(_bodies(ring, pin, Manifold.cube((5, 5, 5)).translate((11, -2, 0))))
    assert gap is not None
    assert gap.bodies_n == 3
    assert gap.gap_mm == pytest.approx(0.4 * np.cos(np.pi / 96), abs=1e-4)  # between facets, by geometry
    assert np.hypot(*gap.at_mm[:2]) == pytest.approx(5.0, abs=0.41)


@pytest.mark.parametrize("off_mm", [0.0, 2.5])
def test_bodies_that_touch_or_lie_far_apart_have_no_gap(off_mm: float) -> None:
    """Two cubes face on face, and 2.5 mm apart: neither prints in place."""
    assert (
        inner_gap(_bodies(Manifold.cube((10, 10, 10)), Manifold.cube((10, 10, 10)).translate((10 + off_mm, 0, 0))))
        is None
    )


def test_a_ball_in_a_hollow_is_measured_to_its_wall() -> None:
    """The hollow is a surface of its own: a ball of 9 mm in one of 10 mm leaves 0.5 mm less what facets take."""
    hollow = Manifold.cube((20, 20, 20), True) - Manifold.sphere(5.0, 96)
    gap = inner_gap(_bodies(hollow, Manifold.sphere(4.5, 96)))

    assert gap is not None
    assert gap.bodies_n == 2
    assert gap.gap_mm == pytest.approx(0.5, abs=0.01)
