"""A side to look from, and a grid of pixels on which the nearest surface of each solid is kept."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
ROOM_PX = 3
"""Empty pixels left on every side of a grid, so that a line on the rim is never outside it."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class View:
    """A side to look from: unit vectors to the right, up, and away from the eye."""

    right: Floats
    up: Floats
    sight: Floats

    def flat(self, points_mm: ArrayLike) -> Floats:
        """Return points (n, 3) as right, up and depth in mm."""
        found: Floats = np.asarray(points_mm, dtype=np.float64) @ np.column_stack([self.right, self.up, self.sight])
        return found


def looking(sight: ArrayLike) -> View:
    """Return the view along a direction, the device's z axis up; along z itself its y axis is up.

    >>> looking((0, 0, -1)).right.tolist()
    [1.0, 0.0, 0.0]
    """
    way = np.asarray(sight, dtype=np.float64) / np.linalg.norm(np.asarray(sight, dtype=np.float64))
    upward = np.array([0.0, 0.0, 1.0]) if abs(way[2]) < 0.999 else np.array([0.0, 1.0, 0.0])
    right = np.cross(way, upward)
    right /= np.linalg.norm(right)
    return View(right=right + 0.0, up=np.cross(right, way) + 0.0, sight=way)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Pixels over a rectangle of a view; pixel (0, 0) has its centre at the lower left corner, rows count upward."""

    low_mm: tuple[float, float]
    step_mm: float
    wide_n: int
    high_n: int

    def px(self, flat: Floats) -> Floats:
        """Return flat points (n, 3) in pixels, depth in mm."""
        moved: Floats = (flat - np.array([*self.low_mm, 0.0])) / np.array([self.step_mm, self.step_mm, 1.0])
        return moved


def grid_over(flat: Floats, longest_n: int) -> Grid:
    """Return a grid that holds flat points, with so many pixels along its longer side."""
    low, high = flat[:, :2].min(axis=0), flat[:, :2].max(axis=0)
    step = max(float((high - low).max()) / longest_n, 1e-6)
    wide, high_n = (int(n) + 1 + 2 * ROOM_PX for n in np.ceil((high - low) / step))
    return Grid(
        low_mm=(float(low[0]) - ROOM_PX * step, float(low[1]) - ROOM_PX * step),
        step_mm=step,
        wide_n=wide,
        high_n=high_n,
    )


def depth_on(grid: Grid, px: Floats, faces: NDArray[np.integer]) -> Floats:
    """Return the least depth of triangles at every pixel's centre (rows, columns), infinite where there is none.

    Each triangle is cut by the rows of pixels that it spans, each of these spans by the columns (scan conversion).
    """
    found = np.full(grid.wide_n * grid.high_n, np.inf)
    corners = px[faces]
    y = corners[:, :, 1]
    first = np.maximum(np.ceil(y.min(axis=1) - 1e-9), 0).astype(np.int64)
    last = np.minimum(np.floor(y.max(axis=1) + 1e-9), grid.high_n - 1).astype(np.int64)
    triangle, row = _spread(first, last)
    if not len(triangle):
        return found.reshape(grid.high_n, grid.wide_n)
    left, right = _crossings(corners[triangle], row.astype(np.float64))
    begin = np.maximum(np.ceil(left - 1e-9), 0)
    end = np.minimum(np.floor(right + 1e-9), grid.wide_n - 1)
    crossed = np.isfinite(begin) & np.isfinite(end)
    span, column = _spread(np.where(crossed, begin, 0).astype(np.int64), np.where(crossed, end, -1).astype(np.int64))
    mine, line = triangle[span], row[span]
    slope = _slopes(corners)
    origin = corners[:, 0]
    depth = origin[mine, 2] + slope[mine, 0] * (column - origin[mine, 0]) + slope[mine, 1] * (line - origin[mine, 1])
    np.minimum.at(found, line * grid.wide_n + column, depth)
    return found.reshape(grid.high_n, grid.wide_n)


def _spread(first: Ints, last: Ints) -> tuple[Ints, Ints]:
    """Return every whole number from ``first`` to ``last`` of each pair, with the pair it belongs to."""
    count = np.maximum(last - first + 1, 0)
    owner = np.repeat(np.arange(len(count)), count)
    start = np.cumsum(count) - count
    return owner, np.arange(int(count.sum())) - start[owner] + first[owner]


def _crossings(corners: Floats, row: Floats) -> tuple[Floats, Floats]:
    """Return where a row's line enters and leaves its triangle; infinite where it does not meet it."""
    left, right = np.full(len(row), np.inf), np.full(len(row), -np.inf)
    for one, other in ((0, 1), (1, 2), (2, 0)):
        a, b = corners[:, one], corners[:, other]
        rise = b[:, 1] - a[:, 1]
        share = np.divide(row - a[:, 1], rise, out=np.full(len(row), np.nan), where=np.abs(rise) > 1e-12)
        inside = (share >= -1e-9) & (share <= 1.0 + 1e-9)
        x = a[:, 0] + share * (b[:, 0] - a[:, 0])
        left = np.where(inside, np.minimum(left, x), left)
        right = np.where(inside, np.maximum(right, x), right)
    return left, right


def _slopes(corners: Floats) -> Floats:
    """Return how depth grows by pixel to the right and by pixel up, on every triangle; 0 for one seen edge on."""
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    flat = np.abs(area) > 1e-9
    across = np.divide(u[:, 2] * v[:, 1] - v[:, 2] * u[:, 1], area, out=np.zeros(len(area)), where=flat)
    upward = np.divide(u[:, 0] * v[:, 2] - v[:, 0] * u[:, 2], area, out=np.zeros(len(area)), where=flat)
    return np.column_stack([across, upward])
