"""One bore on its pin, against what two touching points allow."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mechanism.play.sleeve import Sleeve, reach_ratio, ways_of_ends

SLEEVE = Sleeve(axis=(0.0, 0.0, 1.0), at_mm=(0.0, 0.0, 0.0), long_mm=6.0, play_mm=(0.1, 0.2, 0.3))


def test_along_the_axis_a_tip_goes_play_times_arm_over_length() -> None:
    """The pin touches at both ends of the bore, on opposite sides: tilt = play / length, to each side."""
    assert reach_ratio(SLEEVE, (60.0, 0.0, 0.0), np.array([[0.0, 0.0, 1.0]])) == pytest.approx([60.0 / 6.0])


def test_across_it_a_tip_beside_the_bore_goes_half_the_play() -> None:
    """The part shifts until the pin touches; the turn about the pin is free and no play."""
    across = np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])

    assert reach_ratio(SLEEVE, (60.0, 0.0, 0.0), across) == pytest.approx([0.5, 0.5])


def test_a_tip_above_the_bore_leans_with_it() -> None:
    """Up the axis by z beyond the end the lever law gives (1/2 - z/l) and (1/2 + z/l) of the ends' ways: z/l in all."""
    assert reach_ratio(SLEEVE, (0.0, 0.0, 30.0), np.array([[1.0, 0.0, 0.0]])) == pytest.approx([30.0 / 6.0])


def test_both_maps_are_a_small_rigid_motion() -> None:
    """Ends moved by hand, the tip by a rotation matrix: the same within the square of the motion."""
    tip, first, second = (40.0, 10.0, 12.0), np.array([1e-5, -2e-5, 0.0]), np.array([-3e-5, 4e-5, 0.0])
    one, other = ways_of_ends(SLEEVE, tip)
    low, high = np.array([0.0, 0.0, -3.0]) + first, np.array([0.0, 0.0, 3.0]) + second
    up = (high - low) / np.linalg.norm(high - low)
    x = np.array([1.0, 0.0, 0.0]) - up[0] * up
    y = np.cross(up, x / np.linalg.norm(x))
    moved = np.column_stack([x / np.linalg.norm(x), y, up]) @ np.array(tip) + (low + high) / 2

    assert one @ first + other @ second == pytest.approx(moved - np.array(tip), abs=1e-8)
