"""How long moves take, by the trapezoid of speed over time."""

from __future__ import annotations

import numpy as np
import pytest

from planner.gcode.reading.machine_state import ACCELERATION, COLUMNS_N, DE, DWELL, FEED, X0, X1
from planner.gcode.reading.move_times import rest_to_rest_s
from planner.job import Printer

STRONG_MM_S2 = 400.0


def _moves(*xs: float) -> np.ndarray:
    """Return moves along x at 50 mm/s."""
    moves = np.zeros((len(xs) - 1, COLUMNS_N))
    moves[:, X0], moves[:, X1] = xs[:-1], xs[1:]
    moves[:, FEED], moves[:, ACCELERATION] = 50.0, STRONG_MM_S2
    return moves


def test_a_move_from_rest_to_rest_takes_its_trapezoid(printer: Printer) -> None:
    """100 mm at 50 mm/s and 400 mm/s2: l / v + v / a = 2.125 s (kinematics); cut in two pieces it takes no longer."""
    for moves in (_moves(0, 100), _moves(0, 30, 100)):
        times, peaks = rest_to_rest_s(moves, printer)
        assert times.sum() == pytest.approx(2.125, rel=1e-6)
        assert peaks.max() == pytest.approx(50.0)


def test_a_short_move_never_reaches_its_speed(printer: Printer) -> None:
    """1 mm: 2 sqrt(l / a) = 0.1 s, with a peak of sqrt(l a) = 20 mm/s (kinematics)."""
    times, peaks = rest_to_rest_s(_moves(0, 1), printer)

    assert times[0] == pytest.approx(0.1, rel=1e-6)
    assert peaks[0] == pytest.approx(20.0, rel=1e-6)


def test_filament_alone_and_a_dwell_stop_the_head(printer: Printer) -> None:
    """Between two moves 5 mm of filament take 2 sqrt(5 / 400) s, and a dwell its own 3 s."""
    moves = np.concatenate([_moves(0, 100), _moves(100, 100), _moves(100, 200)])
    moves[1, DE], moves[1, DWELL] = -5.0, 3.0
    times, _ = rest_to_rest_s(moves, printer)

    assert times == pytest.approx([2.125, 2 * np.sqrt(5 / STRONG_MM_S2) + 3.0, 2.125], rel=1e-6)
