"""A grid over two unknown spreads or rates, drawn closer round where the data have them."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
POINTS_N, PASSES_N = 17, 4
LEAST_WEIGHT = 1e-4
"""Cells of less weight than this part of the heaviest one are left outside when the grid is drawn closer."""


def weighed_grid(
    log_weight: Callable[[Floats, Floats], Floats], first: tuple[float, float], second: tuple[float, float]
) -> tuple[Floats, Floats, Floats]:
    """Return cells of a grid over the logarithms of two positive numbers, and the weight of each.

    Parameters
    ----------
    log_weight
        Takes two arrays of logarithms of one shape (cells,) and returns the logarithm of the density of both there.
    first, second
        Between which logarithms each number lies.

    Returns
    -------
    Three arrays of shape (cells,): both numbers, no longer as logarithms, and the weights, which add up to 1.
    """
    ends = first, second
    for step in range(PASSES_N):
        axes = [np.linspace(low, high, POINTS_N) for low, high in ends]
        cells = np.meshgrid(*axes, indexing="ij")
        x, y = (each.ravel() for each in cells)
        logs = log_weight(x, y)
        weights = np.exp(logs - logs.max())
        if step + 1 < PASSES_N:
            here = weights > LEAST_WEIGHT
            ends = tuple(_closer(each[here], end, axis) for each, end, axis in zip((x, y), ends, axes, strict=True))  # type: ignore[assignment]
    return np.exp(x), np.exp(y), weights / weights.sum()


def _closer(kept: Floats, ends: tuple[float, float], axis: Floats) -> tuple[float, float]:
    """Return the range of what is kept, one step wider at each end, but no wider than before."""
    step = float(axis[1] - axis[0])
    return max(ends[0], float(kept.min()) - step), min(ends[1], float(kept.max()) + step)
