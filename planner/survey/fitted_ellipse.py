"""The ellipse that points lie on, fitted by least squares of its conic."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

OFF_SHARE = 0.012
"""Points farther off than this share of the radius are not on the ellipse; the chords of 24 facets are 0.9 % off."""
LEAST_ON_SHARE = 0.85
"""At least this share of the points must lie on it: the others are walls of slots, ribs and lips."""
ROUNDS_N = 6

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ellipse:
    """An ellipse: the unit circle, stretched by the columns of ``axes_mm`` and set on ``centre_mm``."""

    centre_mm: Floats
    axes_mm: Floats

    def at(self, angles: Floats) -> Floats:
        """Return its points at parameters in radians."""
        return self.centre_mm + np.column_stack([np.cos(angles), np.sin(angles)]) @ self.axes_mm.T

    def unit(self, points: Floats) -> Floats:
        """Return points as if it were the unit circle."""
        return np.asarray(np.linalg.solve(self.axes_mm, (points - self.centre_mm).T).T)

    def has(self, points: Floats) -> NDArray[np.bool_]:
        """Return which points lie on it, as near as the chords of a mesh do."""
        return np.asarray(np.abs(np.linalg.norm(self.unit(points), axis=1) - 1.0) <= OFF_SHARE)


def ellipse_through(points: Floats) -> Ellipse | None:
    """Return the ellipse that nearly all points lie on; None where there is none.

    Fitted again to the nearer points until all that are fitted lie on it.
    """
    fitted = points
    for _ in range(ROUNDS_N):
        found = _fitted(fitted)
        if found is None:
            return None
        off = np.abs(np.linalg.norm(found.unit(points), axis=1) - 1.0)
        near = off <= max(OFF_SHARE, 2.0 * float(np.median(off)))
        if np.array_equal(points[near], fitted):  # not sooner: a first fit is pulled off by what is left out later
            enough = np.count_nonzero(near) >= LEAST_ON_SHARE * len(points)
            return found if enough and off[near].max() <= OFF_SHARE else None
        fitted = points[near]
    return None


def _fitted(points: Floats) -> Ellipse | None:
    """Return the ellipse of least algebraic distance, a x² + b xy + c y² + d x + e y + f = 0 with 4 a c > b²."""
    shift, size = points.mean(axis=0), float(np.linalg.norm(np.ptp(points, axis=0)))
    x, y = ((points - shift) / size).T
    terms = np.column_stack([x * x, x * y, y * y, x, y, np.ones_like(x)])
    a, b, c, d, e, f = np.linalg.svd(terms, full_matrices=False)[2][-1]
    if 4 * a * c - b * b <= 1e-9 * (a * a + b * b + c * c):
        return None
    form = np.array([[a, b / 2], [b / 2, c]])
    middle = np.linalg.solve(2 * form, [-d, -e])
    values, vectors = np.linalg.eigh(form / (float(middle @ form @ middle) - f))
    if values.min() <= 0.0:
        return None
    axes = size * vectors / np.sqrt(values)
    turned = axes * [1.0, -1.0] if np.linalg.det(axes) < 0.0 else axes  # counterclockwise, as the sections are seen
    return Ellipse(centre_mm=shift + size * middle, axes_mm=turned)


def along_ellipse(ellipse: Ellipse, start: Floats, end: Floats) -> Floats:
    """Return points of an ellipse counterclockwise from beside one point to beside another, these included."""
    (x0, y0), (x1, y1) = ellipse.unit(np.array([start, end]))
    first = math.atan2(y0, x0)
    angles = first + np.linspace(0.0, (math.atan2(y1, x1) - first) % (2 * math.pi), 181)
    return np.vstack([start, ellipse.at(angles[1:-1]), end])
