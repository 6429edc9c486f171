"""Stops in the device, at size."""

from __future__ import annotations

import pytest

from planner.mechanism import STILL
from planner.mechanism.cord.path.path_stop import PathStop, PointStop, WrapStop
from planner.mechanism.cord.placed_stop import Ring, Spot, stand, with_rim_points

Z = (0.0, 0.0, 1.0)


def test_places_and_printed_radii_scale_bought_radii_and_cords_do_not() -> None:
    """At 150 %: points half as far again, a printed groove too, a screw and half the cord as they are."""
    frames = {"jaw": STILL.turned_about(Z, (0, 0, 0), 90.0)}
    stops: list[PathStop] = [
        PointStop(copy="jaw", at_mm=(2.0, 0.0, 0.0)),
        WrapStop(copy="jaw", axis=Z, centre_mm=(4.0, 0.0, 0.0), drawn_mm=3.0, bought_mm=1.5),
    ]
    point, ring = stand(stops, frames, 1.5, 1.0)

    assert isinstance(point, Spot)
    assert isinstance(ring, Ring)
    assert point.at_mm == pytest.approx((0.0, 3.0, 0.0))
    assert ring.centre_mm == pytest.approx((0.0, 6.0, 0.0))
    assert ring.radius_mm == pytest.approx(3.0 * 1.5 + 1.5 + 0.5)


def test_a_knot_within_a_circle_gets_a_point_on_its_rim() -> None:
    """Right above it, in the groove; a knot outside gets none, one on the axis gets some point."""
    ring = Ring(axis=Z, centre_mm=(0.0, 0.0, 0.0), radius_mm=5.0, sense=1)
    chain = with_rim_points([ring, Spot(at_mm=(0.0, 3.0, 2.0))])

    assert [number for number, _ in chain] == [0, 1, 1]
    assert chain[1][1] == Spot(at_mm=(0.0, 5.0, 0.0), rim=True)
    assert len(with_rim_points([ring, Spot(at_mm=(0.0, 5.1, 0.0))])) == 2
    assert len(with_rim_points([Spot(at_mm=(0.0, 0.0, 1.0)), ring])) == 3
