"""The cylinder or cone that a patch lies on, fitted to its vertices: drawings put those on the surface itself."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy.optimize import least_squares

from planner.pattern.patch import Floats, Patch

MOST_N = 60
STRAY_MM = 0.05
"""Vertices farther off than this count less and less."""
STEEPEST = 20.0
"""Slope (radius over height) from which a cone is a plate with a dimple: left to the general map."""


@dataclass(frozen=True, kw_only=True, eq=False)  # arrays do not compare
class RoundFit:
    """A cylinder (``slope_ratio`` 0) or a cone, and how a patch lies on it.

    Parameters
    ----------
    origin_mm, axis, across : (3,) float
        A point of the axis in the middle of the patch; its unit vector; one across it toward the patch's middle.
    radius_mm
        At the origin.
    slope_ratio
        How much the radius grows along the axis, mm per mm; never negative.
    sense
        -1 where the skin lies inside it (a shell round a limb), 1 where it lies outside.
    off_mm
        How far the farthest vertex lies off it.
    """

    origin_mm: Floats
    axis: Floats
    across: Floats
    radius_mm: float
    slope_ratio: float
    sense: int
    off_mm: float

    def seen(self, points_mm: Floats) -> tuple[Floats, Floats, Floats]:
        """Return angle (-π to π from ``across``), height along the axis and radius of points, each (n,)."""
        away = points_mm - self.origin_mm
        z = away @ self.axis
        side = np.cross(self.axis, self.across)
        x, y = away @ self.across, away @ side
        return np.arctan2(y, x), z, np.hypot(x, y)

    def moved(self, points_mm: Floats, by_mm: float) -> Floats:
        """Return points moved square to the surface, toward the skin."""
        away = points_mm - self.origin_mm
        radial = away - (away @ self.axis)[:, None] * self.axis
        radial /= np.maximum(np.linalg.norm(radial, axis=1, keepdims=True), 1e-12)
        square = (radial - self.slope_ratio * self.axis) / math.hypot(1.0, self.slope_ratio)
        return points_mm + self.sense * by_mm * square


def round_fit(patch: Patch, *, strays: bool = False) -> RoundFit | None:
    """Return the cylinder or cone nearest to a patch's vertices, by least squares; None where there is none.

    A first axis is the direction to which all normals stand most alike (cylinders: 90°, cones: one angle); then axis,
    radius and slope are fitted together to the vertices' distances. With ``strays`` those far off hardly count (the
    loss of a Cauchy distribution; Hampel et al. 1986, Robust Statistics, from memory).
    """
    weights = patch.areas_mm2 / patch.areas_mm2.sum()
    mean = weights @ patch.normals
    apart = patch.normals - mean
    spread, ways = np.linalg.eigh((apart * weights[:, None]).T @ apart)
    if spread[1] < 1e-6:  # all normals alike: a plane
        return None
    axis = ways[:, 0]
    centre = patch.vertices_mm.mean(axis=0)
    u, v = ways[:, 1], ways[:, 2]
    away = patch.vertices_mm - centre
    start = _start(away @ u, away @ v, away @ axis, float(mean @ axis))

    def off(p: Floats) -> Floats:
        """Return the signed distance of every vertex from the surface of parameters ``p``."""
        line, at = _line(p, (axis, u, v), centre)
        gone = patch.vertices_mm - at
        z = gone @ line
        apart: Floats = np.linalg.norm(gone - z[:, None] * line, axis=1) - p[4] - p[5] * z
        return apart / math.hypot(1.0, p[5])

    loss = "cauchy" if strays else "linear"
    scale = np.array([1e-2, 1e-2, 1.0, 1.0, 1.0, 1e-2])
    found = least_squares(
        off,
        [0.0, 0.0, *start],
        x_scale=scale,
        xtol=1e-12,
        ftol=1e-12,
        gtol=1e-12,
        max_nfev=MOST_N,
        loss=loss,
        f_scale=STRAY_MM,
    )
    line, at = _line(found.x, (axis, u, v), centre)
    radius, slope_ratio = float(found.x[4]), float(found.x[5])
    if slope_ratio < 0.0:
        line, slope_ratio = -line, -slope_ratio
    if not (0.0 < radius < 1e5) or slope_ratio > STEEPEST:
        return None
    middle = mean_radial(patch, at, line)
    if middle is None:
        return None
    across, sense = middle
    return RoundFit(
        origin_mm=at,
        axis=line,
        across=across,
        radius_mm=radius,
        slope_ratio=0.0 if slope_ratio < 1e-7 else slope_ratio,
        sense=sense,
        off_mm=float(np.abs(found.fun).max()),
    )


def mean_radial(patch: Patch, at_mm: Floats, axis: Floats) -> tuple[Floats, int] | None:
    """Return the unit vector from the axis toward a patch's middle, and whether its normals look out (1) or in (-1)."""
    middles = patch.corners_mm.mean(axis=1) - at_mm
    radial = middles - (middles @ axis)[:, None] * axis
    long = np.linalg.norm(radial, axis=1, keepdims=True)
    radial = np.divide(radial, long, out=np.zeros_like(radial), where=long > 0)
    looks = float(patch.areas_mm2 @ np.einsum("ij,ij->i", radial, patch.normals))
    across = patch.areas_mm2 @ radial
    if np.linalg.norm(across) < 1e-3 * patch.area_mm2:  # all the way round: any direction will do
        across = np.cross(axis, np.eye(3)[int(np.argmin(np.abs(axis)))])
    if looks == 0.0:
        return None
    return across / np.linalg.norm(across), 1 if looks > 0.0 else -1


def _line(p: Floats, ways: tuple[Floats, Floats, Floats], centre: Floats) -> tuple[Floats, Floats]:
    """Return the axis and a point of it, of parameters: two leans, two moves."""
    axis, u, v = ways
    line = axis + p[0] * u + p[1] * v
    return line / np.linalg.norm(line), centre + p[2] * u + p[3] * v


def _start(x: Floats, y: Floats, z: Floats, lean: float) -> tuple[float, float, float, float]:
    """Return middle, radius and slope_ratio of the cone round z nearest to points, algebraically.

    ``lean`` is the sine of its half angle. (x - a)² + (y - b)² = (r + k z)² is linear in a, b, r k and a rest
    once k² is known; for k = 0 it is the circle of Kåsa 1976 (10.1109/TIM.1976.6312298).
    """
    k = abs(lean) / math.sqrt(max(1.0 - lean * lean, 1e-6))
    columns = [2 * x, 2 * y, np.ones(len(x)), *([2 * k * z] if k > 1e-4 else [])]
    found = np.linalg.lstsq(np.column_stack(columns), x * x + y * y - (k * z) ** 2, rcond=None)[0]
    a, b, rest = (float(value) for value in found[:3])
    sign = 1.0 if len(found) < 4 or found[3] > 0.0 else -1.0
    return a, b, math.sqrt(max(rest + a * a + b * b, 1e-6)), sign * k
