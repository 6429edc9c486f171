"""Round about an axis: frames, circles and turns against what is known in closed form."""

from __future__ import annotations

import numpy as np
import pytest

from planner.survey.bores.around_axis import across, circle, turn, vec3, whole

RNG = np.random.default_rng(5)


@pytest.mark.parametrize("axis", [(0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.6, -0.8, 0.0), (0.48, 0.6, -0.64)])
def test_the_two_directions_across_make_a_right_handed_frame_with_the_axis(axis: tuple[float, float, float]) -> None:
    """Orthonormal, and x cross y is the axis."""
    x, y = across(np.array(axis))

    assert np.array([x, y, axis]) @ np.array([x, y, axis]).T == pytest.approx(np.eye(3), abs=1e-12)
    assert np.cross(x, y) == pytest.approx(axis)


def test_points_on_an_arc_give_their_circle_back() -> None:
    """A third of a circle of 7.25 mm far from the origin: middle and radius to the rounding; noise of both signs little."""
    angles = np.linspace(0.3, 2.4, 40)
    points = np.array([120.0, -80.0]) + 7.25 * np.column_stack([np.cos(angles), np.sin(angles)])
    middle, radius = circle(points)
    near, noisy = circle(points + RNG.normal(0.0, 0.01, points.shape))

    assert (*middle, radius) == pytest.approx((120.0, -80.0, 7.25), abs=1e-9)
    assert (*near, noisy) == pytest.approx((120.0, -80.0, 7.25), abs=0.1)


def _wedge(first_deg: float, last_deg: float) -> np.ndarray:
    """Return a triangle over some degrees about the axis."""
    a, b = np.radians([first_deg, last_deg])
    return np.array([[[np.cos(a), np.sin(a)], [np.cos(b), np.sin(b)], [2 * np.cos(a), 2 * np.sin(a)]]])


@pytest.mark.parametrize(
    ("first", "last", "halves_n"), [(10.0, 40.0, 60), (170.0, -160.0, 60), (-20.0, 20.0, 80), (0.0, 0.5, 1)]
)
def test_a_triangle_covers_its_half_degrees_also_across_the_seam(first: float, last: float, halves_n: int) -> None:
    """30 degrees are 60 halves, before, over and after 180; each covered half lies between the ends."""
    covered = turn(_wedge(first, last))

    assert covered.sum() == halves_n
    span = (last - first) % 360.0
    middles = (np.flatnonzero(covered) + 0.5) / 2.0
    assert ((middles - first) % 360.0 < span).all()


def test_triangles_all_round_cover_all_and_each_half_once() -> None:
    """Twelve wedges of 30 degrees leave nothing open; without one, 60 halves are."""
    wedges = [_wedge(30.0 * k, 30.0 * (k + 1)) for k in range(12)]

    assert turn(np.concatenate(wedges)).all()
    assert (~turn(np.concatenate(wedges[1:]))).sum() == 60


def test_a_wall_stands_all_round_between_its_highest_low_and_lowest_high_rim() -> None:
    """A tube from 0 to 10 mm cut aslant at both ends (1 mm a radius): it is whole from 1 to 9 but for a sector's width."""
    angles = np.radians(np.arange(0.0, 360.0, 1.0))
    ring = np.column_stack([np.cos(angles), np.sin(angles)])
    along = np.concatenate([ring[:, 0], 10.0 + ring[:, 0]])
    low, high = whole(np.concatenate([ring, ring]), along)

    assert 0.96 < low <= 1.0
    assert 9.0 <= high < 9.04


def test_where_no_height_is_whole_the_middle_is_told() -> None:
    """Cut by 45 degrees through a tube 1 mm long: no ring is whole, both ends are the middle, 0.5."""
    angles = np.radians(np.arange(0.0, 360.0, 1.0))
    ring = 5.0 * np.column_stack([np.cos(angles), np.sin(angles)])
    low, high = whole(np.concatenate([ring, ring]), np.concatenate([ring[:, 0], 1.0 + ring[:, 0]]))

    assert low == high == pytest.approx(0.5, abs=0.1)


def test_records_hold_plain_floats() -> None:
    """Three numbers, none of an array's kind."""
    assert vec3(np.array([1.0, 2.0, 3.0])) == (1.0, 2.0, 3.0)
    assert {type(value) for value in vec3(np.array([1.0, 2.0, 3.0]))} == {float}
