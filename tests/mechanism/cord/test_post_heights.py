"""Heights on smooth posts."""

from __future__ import annotations

import pytest

from planner.mechanism.cord.placed_stop import Placed, Ring, Spot
from planner.mechanism.cord.post_heights import settled_heights


def test_between_two_heights_a_cord_climbs_evenly() -> None:
    """Laid flat, the way is straight: of 10 mm run, 5 mm arc and 15 mm run each takes its share of the rise."""
    ring = Ring(axis=(0.0, 0.0, 1.0), centre_mm=(0.0, 0.0, 0.0), radius_mm=2.0, sense=1, slides=True)
    a, b = (-10.0, -2.0, 0.0), (15.0, 2.0, 6.0)
    stops: list[Placed] = [Spot(at_mm=a), ring, Spot(at_mm=b)]
    laid = [(a, a), ((0.0, -2.0, 0.0), (0.0, 2.0, 0.0)), (b, b)]

    assert settled_heights(stops, laid, [0.0, 5.0, 0.0])[1] == pytest.approx((2.0, 3.0))
