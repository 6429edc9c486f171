"""Arcs in their plane: where the centre lies, how far they turn, and how many chords stay close to them (ISO 6983)."""

from __future__ import annotations

import numpy as np
from numba import njit

ARC_MM = 0.002
"""Chords leave an arc by no more than this."""
CHORDS_MOST = 20_000


@njit(cache=True)
def centre_by_radius(a, b, to_a, to_b, radius, left):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN201
    """Return the centre of an arc from (a, b) to another point; NaN where both are one.

    A positive radius means the shorter way round, a negative one the longer.
    """
    da, db = to_a - a, to_b - b
    half = np.sqrt(da * da + db * db) / 2.0
    if half == 0.0:
        return np.nan, np.nan
    rise = np.sqrt(max(radius * radius - half * half, 0.0))
    way = -1.0 if left == (radius > 0.0) else 1.0
    return a + da / 2.0 + way * rise * db / (2.0 * half), b + db / 2.0 - way * rise * da / (2.0 * half)


@njit(cache=True)
def turn_rad(first, last, left, more):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN201
    """Return how far an arc turns from one angle to another, to the left or right, and ``more`` whole turns."""
    turn = last - first
    if left and turn <= 1e-9:
        turn += 2.0 * np.pi
    elif not left and turn >= -1e-9:
        turn -= 2.0 * np.pi
    return turn + (2.0 if left else -2.0) * np.pi * max(more, 0.0)


@njit(cache=True)
def chords_n(radius, turn):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN201
    """Return how many chords leave an arc by no more than ``ARC_MM``."""
    step = 2.0 * np.arccos(max(1.0 - ARC_MM / radius, 0.7))
    step = max(step, abs(turn) / CHORDS_MOST, 1e-12)  # a radius of light years has a step of 0
    return min(max(int(np.ceil(abs(turn) / step)), 1), CHORDS_MOST)
