"""Sweeps: the first meeting by arithmetic, and thin walls that no step jumps over."""

from __future__ import annotations

import pytest

from planner.mechanism import STILL, Frame
from planner.mechanism.range.sweep import EXACT, first_meeting
from planner.mechanism.range.two_bodies import Meeting
from tests.shapes import Manifold


def _slide(value: float) -> list[Frame]:
    """Return a group that stands and one that slides along x."""
    return [STILL, STILL.slid_along((1.0, 0.0, 0.0), value)]


def _meeting(one: Manifold, other: Manifold) -> Meeting:
    """Return two bodies that may meet."""
    return Meeting(names=("wall", "cube"), groups=(0, 1), one=one, other=other)


CUBE = Manifold.cube((4, 4, 4))


@pytest.mark.parametrize("clear", [0.0, 0.25, 1.0])
@pytest.mark.parametrize("thick", [0.4, 3.0])
def test_a_cube_stops_before_a_wall(clear: float, thick: float) -> None:
    """From 0 to 4 wide, it goes to the wall at 30 less its width and the clearance, however thin the wall is."""
    wall = Manifold.cube((thick, 10, 10)).translate((30, -3, -3))
    found = first_meeting(_meeting(wall, CUBE), _slide, (0.0, 100.0), clear)

    assert found is not None
    assert found[0] == pytest.approx(26.0 - clear, abs=EXACT)
    assert found[0] < found[1] <= found[0] + EXACT


def test_what_is_passed_by_is_no_stop_but_where_it_comes_too_near() -> None:
    """A post 0.2 mm beside the way is passed without a clearance, and stops what needs 0.5 mm."""
    post = Manifold.cube((2, 2, 9)).translate((20, 4.2, -2))

    assert first_meeting(_meeting(post, CUBE), _slide, (0.0, 60.0), 0.0) is None
    assert first_meeting(_meeting(post, CUBE), _slide, (0.0, 60.0), 0.5) is not None


def test_what_is_as_near_at_rest_is_no_stop() -> None:
    """A rail 0.1 mm below the cube all along does not stop it, nor one that it lies on."""
    for gap in (0.1, 0.0):
        rail = Manifold.cube((90, 9, 3)).translate((-9, -3, -3 - gap))
        assert first_meeting(_meeting(rail, CUBE), _slide, (0.0, 60.0), 0.5) is None


def test_a_start_inside_something_is_a_stop_at_once() -> None:
    """ScrewGrip where it overlaps what it did not as drawn, the joint goes nowhere."""
    wall = Manifold.cube((3, 10, 10)).translate((30, -3, -3))

    assert first_meeting(_meeting(wall, CUBE), _slide, (28.0, 100.0), 0.0) == (28.0, 28.0)
