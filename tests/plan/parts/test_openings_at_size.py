"""Openings as a part stands on the bed: scaled, mirrored, turned, and only where a wall stands round them."""

from __future__ import annotations

import numpy as np
import pytest

from planner.finding import Vec3
from planner.mesh import Solid
from planner.plan.parts.openings_at_size import STEP_SHARE, openings_of
from planner.survey import survey
from tests.shapes import Manifold, bored_plate, cylinder, solid_of

PLATE = bored_plate(40, 20, 6, [(10, 5, 6, 48)])


def _rods(
    solid: Solid, factors: Vec3 = (1.0, 1.0, 1.0), *, down: Vec3 = (0.0, 0.0, -1.0), mirrored: bool = False
) -> list[tuple[np.ndarray, float]]:
    """Return rods and radius of every opening."""
    sized = solid.scaled(factors)
    sized = sized.mirrored() if mirrored else sized
    found = openings_of(survey(solid), solid, sized, down, factors, mirrored=mirrored)
    return [(opening.rods_mm, opening.radius_mm) for opening in found]


@pytest.mark.parametrize(
    ("factors", "mirrored", "at_mm", "radius_mm"),
    [
        ((1.0, 1.0, 1.0), False, (-10.0, -5.0), 3.0),
        ((2.0, 2.0, 2.0), False, (-20.0, -10.0), 6.0),
        ((1.0, 1.0, 1.0), True, (10.0, -5.0), 3.0),
        ((1.0, 2.0, 3.0), False, (-10.0, -10.0), 6.0),
    ],
    ids=["as drawn", "200 %", "mirrored", "uneven"],
)
def test_a_bore_stands_where_the_part_has_it(
    factors: Vec3, mirrored: bool, at_mm: tuple[float, float], radius_mm: float
) -> None:
    """A bore at (10, 5) of a plate of 40 x 20 mm: from its middle -10 and -5, times factors; ends to a step."""
    ((rods, radius),) = _rods(PLATE, factors, mirrored=mirrored)

    assert rods[0, 0, :2] == pytest.approx(at_mm, abs=0.02)
    assert rods[0, 1, :2] == pytest.approx(at_mm, abs=0.02)
    assert sorted(rods[0, :, 2]) == pytest.approx([0.0, 6.0 * factors[2]], abs=STEP_SHARE * 6.0 * factors[2])
    assert radius == pytest.approx(radius_mm, rel=0.01)


def test_a_bore_between_two_lugs_is_open_where_no_wall_stands() -> None:
    """Lugs of 6 mm with 12 mm of air between, lying down: two stretches of 6 mm along y, none through the air."""
    lugs = Manifold.cube((20, 6, 20)) + Manifold.cube((20, 6, 20)).translate((0, 18, 0))
    base = Manifold.cube((20, 24, 4)).translate((0, 0, -4))
    bore = cylinder(8.0, 60.0, 48).rotate((90, 0, 0)).translate((10, 40, 10))
    found = _rods(solid_of(lugs + base - bore))
    stretches = sorted((min(rod[:, 1]), max(rod[:, 1])) for rods, _ in found for rod in rods)

    assert np.array(stretches) == pytest.approx(np.array([(-12.0, -6.0), (6.0, 12.0)]), abs=0.9)
