"""Where a cord rubs."""

from __future__ import annotations

import math

import pytest

from planner.mechanism.cord.path.path_stop import PathStop, PointStop, WrapStop
from planner.mechanism.cord.placed_stop import stand
from planner.mechanism.cord.rubs import rubs_of
from planner.mechanism.cord.taut import taut
from tests.mechanism.cord.hinged import hinge

Z = (0.0, 0.0, 1.0)


def test_a_cord_rubs_where_it_slides_and_not_on_the_part_that_it_ends_at() -> None:
    """An eye's corner counts in full, a wheel by its axle over its radius, the drum that it is tied to not at all."""
    stops: list[PathStop] = [
        PointStop(copy="base", at_mm=(-60.0, 0.0, 0.0)),
        PointStop(copy="base", at_mm=(-40.0, 0.0, 0.0)),
        WrapStop(copy="base", axis=Z, centre_mm=(-20.0, 20.0, 0.0), drawn_mm=5.0, sense=-1, axle_mm=1.5),
        WrapStop(copy="jaw", axis=Z, centre_mm=(0.0, 0.0, 0.0), drawn_mm=9.0, sense=-1),
        PointStop(copy="jaw", at_mm=(9.0, 0.0, 0.0)),
    ]
    cord = taut(stand(stops, hinge(0.0), 2.0, 1.0))
    eye, wheel = rubs_of(stops, cord, 2.0, 1.0)

    assert (eye.number, eye.axle_ratio) == (1, 0.0)
    assert math.degrees(eye.bend_rad) > 10.0
    assert wheel.number == 2
    assert wheel.axle_ratio == pytest.approx(1.5 / (5.0 * 2.0 + 0.5))
