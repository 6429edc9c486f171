"""A frame: rigid motions, held against another library's rotations."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from planner.mechanism import STILL, Frame


def _random(seed: int) -> tuple[Frame, Rotation, np.ndarray]:
    """Return a random frame, and the same as another library sees it."""
    random = np.random.default_rng(seed)
    turn, shift = Rotation.random(random_state=random), random.uniform(-50, 50, 3)
    return Frame(turn=turn.as_matrix(), shift_mm=shift), turn, shift


@pytest.mark.parametrize("seed", range(5))
def test_frames_move_compose_and_turn_back(seed: int) -> None:
    """Points, directions, composition and inverse are those of scipy's rotations."""
    (a, r, s), (b, q, t) = _random(seed), _random(seed + 100)
    points = np.random.default_rng(seed).uniform(-9, 9, (4, 3))

    assert np.allclose(a.points(points), r.apply(points) + s)
    assert np.allclose(a.point(points[0]), r.apply(points[0]) + s)
    assert np.allclose(a.direction(points[0]), r.apply(points[0]))
    assert np.allclose(a.after(b).points(points), r.apply(q.apply(points) + t) + s)
    assert np.allclose(a.inverse().after(a).points(points), points)
    assert np.allclose(a.matrix() @ [*points[0], 1.0], a.point(points[0]))


@pytest.mark.parametrize("deg", [-170.0, -30.0, 0.0, 12.5, 90.0, 180.0])
def test_a_frame_turns_about_a_line_by_the_right_hand(deg: float) -> None:
    """Turning about a line keeps its points and turns the rest as scipy's rotation vector does; an axis needs no length."""
    frame, axis, at = _random(3)[0], np.array([1.0, -2.0, 0.5]), np.array([4.0, 5.0, 6.0])
    unit = axis / np.linalg.norm(axis)
    turned = frame.turned_about(tuple(axis), at, deg)
    expected = Rotation.from_rotvec(unit * np.radians(deg)).apply(frame.shift_mm - at) + at

    assert np.allclose(turned.shift_mm, expected)
    assert np.allclose(STILL.turned_about(tuple(axis), at, deg).point(at + 7 * unit), at + 7 * unit)


def test_a_frame_slides_along_a_direction() -> None:
    """Sliding moves the origin by so many mm, whatever the direction's length, and turns nothing."""
    frame = _random(4)[0]
    slid = frame.slid_along((0.0, 3.0, 4.0), 10.0)

    assert np.allclose(slid.shift_mm - frame.shift_mm, (0.0, 6.0, 8.0))
    assert np.allclose(slid.turn, frame.turn)
    assert STILL.still
    assert not slid.still
