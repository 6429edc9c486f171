"""Round outsides about a bore."""

from __future__ import annotations

import math

import pytest
from manifold3d import CrossSection

from planner.mechanism.cord.path.round_outside import Seat, seat_of
from planner.mesh import Solid
from tests.mechanism.cord.path.known_parts import bore
from tests.shapes import Manifold, cylinder, solid_of, tube


def bored(solid: Solid, z: float) -> Seat | None:
    """Return the seat of a cord of 1 mm about the z axis of a solid, whose middle is at a height."""
    return seat_of(solid, bore(1, 0.0, 0.0, z, 3.4, 6.0), 1.0)


def test_in_a_v_a_cord_rides_on_both_flanks() -> None:
    """In a V of half angle a with its point at radius p, a cord's middle lies c / sin a above the point."""
    half_deg, point = 45.0, 6.0
    outline = CrossSection([[(0, -4), (10, -4), (point, 0), (10, 4), (0, 4)]])
    seat = bored(solid_of(Manifold.revolve(outline, 96) - cylinder(3.4, 20.0, 32).translate((0, 0, -10))), 0.0)

    assert seat is not None
    assert seat.radius_mm + 0.5 == pytest.approx(point + 0.5 / math.sin(math.radians(half_deg)), abs=0.03)
    assert seat.centre_mm[2] == pytest.approx(0.0, abs=0.05)


def test_on_a_plain_drum_a_cord_lies_on_its_outside_at_the_middle() -> None:
    """A tube has no groove."""
    seat = bored(tube(20.0, 5.0, 12.0), 6.0)

    assert seat is not None
    assert seat.radius_mm == pytest.approx(10.0, abs=0.02)
    assert seat.centre_mm[2] == pytest.approx(6.0, abs=0.1)


def test_a_block_is_not_round() -> None:
    """Nor is a lever, whose outside is round on one side only."""
    hole = cylinder(5.0, 20.0, 32).translate((0, 0, -5))
    block = Manifold.cube((20.0, 20.0, 6.0)).translate((-10, -10, 0))
    lever = (cylinder(16.0, 6.0, 64) + cylinder(8.0, 6.0, 64).translate((30.0, 0, 0))).hull()

    assert bored(solid_of(block - hole), 3.0) is None
    assert bored(solid_of(lever - hole), 3.0) is None
