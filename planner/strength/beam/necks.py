"""Necks between the cuts of a way: a notch, waist or bore narrower than cuts are apart is cut at its narrowest.

The area of a section follows from the triangles that it crosses alone (Green's theorem), so that hundreds of places are
looked at in the time of a few cuts.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numba import njit
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength.beam.cut_forces import cut_at

Floats = NDArray[np.float64]
FINER_N = 12
"""Places looked at between two cuts: of 60 mm cut 24 times a notch of 0.4 mm, a line's width, still shows."""
NARROWER = 0.97
"""A neck is narrower than both cuts beside it by this share: less changes stress by as little; no source."""
KEPT_N = 256
"""So many ways are kept: their cuts are asked for again, by what cuts ahead and by what cuts for pictures."""


@lru_cache(maxsize=KEPT_N)
def necks_of(solid: Solid, way: tuple[Vec3, Vec3], shares: tuple[float, ...]) -> tuple[float, ...]:
    """Return places of a way (0 to 1) between those of cuts (rising) at which the part is narrower than at both."""
    start, end = np.array(way[0]), np.array(way[1])
    steps = np.arange((len(shares) - 1) * FINER_N + 1) / FINER_N
    fine = np.interp(steps, np.arange(len(shares)), shares)
    axes = cut_at(start, end - start).axes
    areas = areas_mm2((solid.corners_mm - start) @ axes.T, fine * float(np.linalg.norm(end - start)))
    between = np.lib.stride_tricks.sliding_window_view(areas, FINER_N + 1)[::FINER_N]
    least = between.argmin(axis=1)
    ends = np.minimum(between[:, 0], between[:, -1])
    narrow = between.min(axis=1) < NARROWER * ends
    narrow &= between.min(axis=1) > 0.0
    added = fine[np.flatnonzero(narrow) * FINER_N + least[narrow]]
    return tuple(float(one) for one in added)


def areas_mm2(corners_mm: Floats, heights_mm: Floats) -> Floats:
    """Return the areas (n,) of sections square to the last axis, at rising heights, of triangles (m, 3, 3)."""
    low, high = corners_mm[:, :, 2].min(axis=1), corners_mm[:, :, 2].max(axis=1)
    first, last = np.searchsorted(heights_mm, low), np.searchsorted(heights_mm, high)  # low <= height < high
    swept: Floats = _swept_mm2(np.ascontiguousarray(corners_mm), np.ascontiguousarray(heights_mm), first, last)
    return np.abs(swept)


@njit(cache=True)
def _swept_mm2(corners, heights, first, last):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Sum what the sides of sections sweep about the origin, each triangle (m, 3, 3) crossed by heights of its own."""
    areas = np.zeros(heights.shape[0])
    for n in range(corners.shape[0]):
        for k in range(first[n], last[n]):
            at = heights[k]
            over = (corners[n, 0, 2] > at, corners[n, 1, 2] > at, corners[n, 2, 2] > at)
            above = int(over[0]) + int(over[1]) + int(over[2]) == 1  # whether the corner alone lies above
            a = 0 if over[0] == above else 1 if over[1] == above else 2
            b, c = (a + 1) % 3, (a + 2) % 3
            tip_x, tip_y, tip_z = corners[n, a]
            there = (at - tip_z) / (corners[n, b, 2] - tip_z)
            back = (at - tip_z) / (corners[n, c, 2] - tip_z)
            x, y = tip_x + there * (corners[n, b, 0] - tip_x), tip_y + there * (corners[n, b, 1] - tip_y)
            u, v = tip_x + back * (corners[n, c, 0] - tip_x), tip_y + back * (corners[n, c, 1] - tip_y)
            # Going round the outline, the solid lies on one side: which, tells whether the corner alone lies above.
            areas[k] += (x * v - y * u) / 2.0 * (1.0 if above else -1.0)
    return areas
