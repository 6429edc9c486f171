"""Runs: lines laid in one go, closed like a contour or open like fill, with the speed asked for them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.gcode.reading.machine_state import DE, FEED, X0, X1, Z0, Z1

Floats = NDArray[np.float64]

CLOSED_MM = 1.0
"""A run that ends this near to its start has gone round."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Runs:
    """One row a run: height, length, filament in mm, speed, and whether it closes."""

    z_mm: Floats
    length_mm: Floats
    filament_mm: Floats
    feed_mm_s: Floats
    closed: NDArray[np.bool_]


def runs_of(moves: Floats) -> Runs:
    """Return the runs of moves; a travel, a change of height or of speed ends one."""
    length = np.linalg.norm(moves[:, X1 : Z1 + 1] - moves[:, X0 : Z0 + 1], axis=1)
    laid = (moves[:, DE] > 0) & (length > 0)
    before, after = moves[:-1], moves[1:]
    same = laid[:-1] & laid[1:] & (before[:, FEED] == after[:, FEED]) & (before[:, Z1] == after[:, Z1])
    start = np.flatnonzero(laid & ~np.concatenate([[False], same]))
    end = np.flatnonzero(laid & ~np.concatenate([same, [False]]))
    sums = np.concatenate([[0.0], np.cumsum(np.where(laid, length, 0.0))])
    fed = np.concatenate([[0.0], np.cumsum(np.where(laid, moves[:, DE], 0.0))])
    gap = np.linalg.norm(moves[end, X1:Z1] - moves[start, X0:Z0], axis=1)
    total = sums[end + 1] - sums[start]
    return Runs(
        z_mm=moves[end, Z1],
        length_mm=total,
        filament_mm=fed[end + 1] - fed[start],
        feed_mm_s=moves[end, FEED],
        closed=(gap < CLOSED_MM) & (total > 6 * CLOSED_MM),
    )
