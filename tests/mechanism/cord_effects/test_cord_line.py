"""A cord as it is drawn."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from planner.mechanism.cord.path.path_stop import LineStop, PathStop, PointStop, WrapStop
from planner.mechanism.cord.placed_stop import stand
from planner.mechanism.cord.taut import taut
from planner.mechanism.cord_effects.cord_line import cord_line
from tests.mechanism.cord.hinged import hinge

PATH: list[PathStop] = [
    PointStop(copy="base", at_mm=(-50.0, 0.0, 0.0)),
    LineStop(copy="base", line_mm=((-40.0, 0.0, 0.0), (-30.0, 5.0, 0.0), (-20.0, 0.0, 0.0))),
    WrapStop(copy="jaw", axis=(0.0, 0.0, 1.0), centre_mm=(0.0, 8.0, 0.0), drawn_mm=8.0, sense=1),
    PointStop(copy="jaw", at_mm=(8.0, 40.0, 0.0)),
]


def test_the_line_follows_channels_and_arcs_and_is_nearly_as_long_as_the_cord() -> None:
    """Chords of at most 0.3 rad are 0.4 % shorter than their arcs at most; every corner of the channel is on the line."""
    line = cord_line(PATH, hinge(0.0), 1.5, 1.0)
    cord = taut(stand(PATH, hinge(0.0), 1.5, 1.0))

    assert sum(math.dist(a, b) for a, b in pairwise(line)) == pytest.approx(cord.length_mm, rel=4e-3)
    assert (-45.0, 7.5, 0.0) in line
    assert line[0] == (-75.0, 0.0, 0.0)


def test_a_knot_within_a_drum_is_drawn_over_its_rim() -> None:
    """The last two points are the rim above the knot and the knot."""
    knot: PathStop = PointStop(copy="jaw", at_mm=(0.0, 14.0, 0.0))
    line = cord_line([*PATH[:3], knot], hinge(0.0), 1.0, 1.0)

    assert line[-1] == pytest.approx((0.0, 14.0, 0.0))
    assert line[-2] == pytest.approx((0.0, 16.5, 0.0))
