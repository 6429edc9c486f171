"""Whether a cord lies on a wrap."""

from __future__ import annotations

import pytest

from planner.mechanism.cord.lift_off import lifted
from planner.mechanism.cord.placed_stop import Placed, Ring, Spot

RING = Ring(axis=(0.0, 0.0, 1.0), centre_mm=(0.0, 0.0, 0.0), radius_mm=5.0, sense=1)


@pytest.mark.parametrize(("y", "off"), [(-5.5, True), (-5.0, True), (-4.9, False), (7.0, False)])
def test_the_straight_way_past_the_right_side_is_free(y: float, off: bool) -> None:
    """Round counter-clockwise, the centre is to be left of the cord by a radius."""
    a, b = (-20.0, y, 0.0), (20.0, y, 0.0)
    stops: list[Placed] = [Spot(at_mm=a), RING, Spot(at_mm=b)]

    assert bool(lifted(stops, [(a, a), (a, b), (b, b)])) is off


def test_a_wrap_at_an_end_is_never_lifted_off() -> None:
    """A path that begins or ends at a wrap has nothing on its other side."""
    a = (20.0, 0.0, 0.0)

    assert lifted([RING, Spot(at_mm=a)], [(a, a), (a, a)]) == []
