"""Least gaps on a way: by hand for balls and cubes that pass each other."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.mechanism.places.frame import STILL, Frame
from planner.mechanism.range.least_gap import FINE, least_gap
from planner.mechanism.range.two_bodies import Meeting
from tests.shapes import Manifold

CUBE = Manifold.cube((10, 10, 10))


def _meeting(x_mm: float, y_mm: float, name: str = "b") -> Meeting:
    """Return a cube at rest and one that moves, drawn at a place."""
    return Meeting(names=("a", name), groups=(0, 1), one=CUBE, other=CUBE.translate((x_mm, y_mm, 0)))


def _along_y(value: float) -> list[Frame]:
    """Return the second body moved along y by the value."""
    return [STILL, Frame(turn=np.eye(3), shift_mm=np.array([0.0, value, 0.0]))]


def test_a_cube_that_passes_corner_to_face_comes_as_near_as_its_faces() -> None:
    """Drawn beside and behind, 1.5 mm at rest from corner to corner: passing, 0.9 mm between the faces."""
    found = least_gap([_meeting(10.9, 11.2)], _along_y, (-20.0, 0.0))
    assert found is not None

    assert found.gap_mm == pytest.approx(0.9, abs=1e-6)
    assert -21.2 - FINE <= found.at_deg <= -1.2 + FINE
    assert found.parts == ("a", "b")


def test_the_least_gap_between_round_bodies_is_found_to_the_fine_step() -> None:
    """A corner that swings by a wall: nearest where it points at it, at 30 degrees, 20.5 - 20 mm away; closed form."""
    arm = Manifold.cube((2, 2, 2), True).rotate((0, 0, 45)).translate((20 - math.sqrt(2), 0, 0))
    wall = Manifold.cube((10, 60, 4), True).translate((25.5, 0, 0)).rotate((0, 0, 30))
    meeting = Meeting(names=("wall", "arm"), groups=(0, 1), one=wall, other=arm)

    def swung(value: float) -> list[Frame]:
        return [STILL, STILL.turned_about((0, 0, 1), (0, 0, 0), value)]

    found = least_gap([meeting], swung, (0.0, 60.0))
    assert found is not None

    assert found.gap_mm == pytest.approx(0.5, abs=1e-3)
    assert found.at_deg == pytest.approx(30.0, abs=1.0)


def test_bodies_that_come_no_nearer_than_at_rest_have_none() -> None:
    """One that only moves away, and one that stays far off."""
    assert least_gap([_meeting(10.4, 0.0)], _along_y, (0.0, 30.0)) is None
    assert least_gap([_meeting(60.0, 0.0)], _along_y, (-30.0, 30.0)) is None


def test_bodies_that_run_into_each_other_have_no_gap_at_all() -> None:
    """Drawn 0.8 mm apart and moved 2 mm on: 0; of several, the pair with the least gap is named."""
    found = least_gap([_meeting(0.0, 10.8), _meeting(10.9, 11.2, "c")], _along_y, (-2.0, 0.0))
    assert found is not None

    assert (found.gap_mm, found.parts) == (0.0, ("a", "b"))


def test_what_touches_at_rest_is_left_out_where_the_range_is_known_to_be_free() -> None:
    """Face on face and sliding: no gap is asked about."""
    assert least_gap([_meeting(10.0, 0.0)], _along_y, (-5.0, 5.0), free=True) is None
