"""Runs: rows of moves become lines laid in one go, by hand."""

from __future__ import annotations

import numpy as np
import pytest

from planner.gcode.reading.machine_state import DE, FEED, X0, X1, Y0, Y1, Z0, Z1
from planner.gcode.runs import runs_of


def _moves(points: list[tuple[float, float, float]], fed: list[float], feed: list[float]) -> np.ndarray:
    """Return moves through points, with the filament and the speed of each."""
    moves = np.zeros((len(fed), 13))
    for k in range(len(fed)):
        moves[k, [X0, Y0, Z0]], moves[k, [X1, Y1, Z1]] = points[k], points[k + 1]
        moves[k, DE], moves[k, FEED] = fed[k], feed[k]
    return moves


SQUARE = [(0.0, 0.0, 0.2), (10.0, 0.0, 0.2), (10.0, 10.0, 0.2), (0.0, 10.0, 0.2), (0.0, 0.0, 0.2)]


def test_a_square_is_one_closed_run() -> None:
    """Four sides of 10 mm with 0.3 mm of filament each: one run of 40 mm and 1.2 mm that closes."""
    runs = runs_of(_moves(SQUARE, [0.3] * 4, [50.0] * 4))

    assert runs.length_mm == pytest.approx([40.0])
    assert runs.filament_mm == pytest.approx([1.2])
    assert runs.closed.tolist() == [True]


def test_a_travel_a_speed_and_a_height_end_a_run() -> None:
    """The second side at another speed, the third without filament, the fourth at another height: three open runs."""
    points = [*SQUARE[:4], (0.0, 0.0, 0.4)]
    runs = runs_of(_moves(points, [0.3, 0.3, 0.0, 0.3], [50.0, 20.0, 20.0, 20.0]))

    assert runs.feed_mm_s.tolist() == [50.0, 20.0, 20.0]
    assert runs.z_mm.tolist() == [0.2, 0.2, 0.4]
    assert not runs.closed.any()
