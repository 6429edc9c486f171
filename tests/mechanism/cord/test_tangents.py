"""Tangents between circles and points."""

from __future__ import annotations

import math

import pytest

from planner.mechanism.cord.placed_stop import Ring, Spot
from planner.mechanism.cord.tangents import contacts, left_of, turn_back

Z = (0.0, 0.0, 1.0)


def test_the_way_between_two_circles_touches_both() -> None:
    """At each point of contact the radius is square to the cord, whatever the senses."""
    for one, two in ((1, 1), (1, -1), (-1, 1), (-1, -1)):
        first = Ring(axis=Z, centre_mm=(0.0, 0.0, 0.0), radius_mm=3.0, sense=one)
        second = Ring(axis=Z, centre_mm=(20.0, 5.0, 0.0), radius_mm=6.0, sense=two)
        a, b = contacts(first, second, 0.0, 0.0)
        way = (b[0] - a[0], b[1] - a[1])

        assert a[0] * way[0] + a[1] * way[1] == pytest.approx(0.0, abs=1e-9)
        assert (b[0] - 20.0) * way[0] + (b[1] - 5.0) * way[1] == pytest.approx(0.0, abs=1e-9)
        assert math.hypot(*a[:2]) == pytest.approx(3.0)
        turn = turn_back(first, a)
        assert turn[0] * way[0] + turn[1] * way[1] > 0.0  # the cord leaves in the sense in which it goes round


def test_between_fixed_points_nothing_is_moved() -> None:
    """A straight way from point to point."""
    assert contacts(Spot(at_mm=(1.0, 2.0, 3.0)), Spot(at_mm=(4.0, 5.0, 6.0)), 0.0, 0.0) == (
        (1.0, 2.0, 3.0),
        (4.0, 5.0, 6.0),
    )


def test_left_is_counter_clockwise() -> None:
    """Seen against the axis, with no rise, left is a quarter turn on; with all the rise it is the way itself."""
    assert left_of((3.0, 0.0, 0.0), Z, 0.0) == pytest.approx((0.0, 1.0, 0.0))
    assert left_of((3.0, 0.0, 0.0), Z, 3.0) == pytest.approx((1.0, 0.0, 0.0))
