"""What is round about a bore from outside: the groove of a pulley or the rim of a drum, and where a cord lies in it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mechanism.cord.vectors import across, cross, plus
from planner.mesh import Solid
from planner.survey import Bore, face_normals, first_hits

Floats = NDArray[np.float64]
RAYS_N, HEIGHTS_N = 36, 121
"""Directions round the axis, and heights along it, at which the outside is felt."""
ROUND_SHARE = 0.02
"""A section whose radius differs by more than this share is not round: 24 facets take 0.9 %."""
LEAST_N, LEVEL_MM = 3, 2e-3
"""So many neighbouring heights must be round; heights that differ by less than this are one groove's floor."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """Where a cord lies on a round outside: radius of what it lies on, as drawn, and the middle of its circle."""

    radius_mm: float
    centre_mm: Vec3


def seat_of(solid: Solid, bore: Bore, cord_mm: float) -> Seat | None:
    """Return where a cord of a diameter comes to lie about a bore's axis; None where the outside is not round.

    A taut cord slips to where its centre line is nearest to the axis: R(z) is the greatest rho(z') +
    sqrt(c² - (z' - z)²) over the heights z' within c, half the cord, of z; its least is the seat. In a groove
    narrower than the cord it rides on the flanks.
    """
    heights, radii = _profile(solid, bore)
    if len(heights) < LEAST_N:
        return None
    half = cord_mm / 2
    rides = np.array([_rides_mm(heights, radii, z, half) for z in heights])
    least = float(rides.min())
    low = np.flatnonzero(rides < least + LEVEL_MM)
    return Seat(radius_mm=least - half, centre_mm=plus(bore.centre_mm, bore.axis, float(heights[low].mean())))


def _rides_mm(heights: Floats, radii: Floats, z: float, half_mm: float) -> float:
    """Return how far from the axis a cord's centre line lies at a height."""
    near = np.abs(heights - z) <= half_mm
    return float((radii[near] + np.sqrt(half_mm**2 - (heights[near] - z) ** 2)).max())


def _profile(solid: Solid, bore: Bore) -> tuple[Floats, Floats]:
    """Return the heights along a bore's axis, from its middle, at which the outside is round, and its radius there.

    Of several round stretches only the one round the bore's middle counts, or the nearest to it.
    """
    axis, side = np.array(bore.axis), np.array(across(bore.axis))
    other, middle = np.array(cross(bore.axis, across(bore.axis))), np.array(bore.centre_mm)
    along = (solid.vertices_mm - middle) @ axis
    heights = np.linspace(along.min(), along.max(), HEIGHTS_N + 2)[1:-1]
    angles = np.linspace(0.0, 2 * math.pi, RAYS_N, endpoint=False) + 0.01
    outward = np.cos(angles)[:, None] * side + np.sin(angles)[:, None] * other
    far = float(np.linalg.norm(solid.vertices_mm - middle, axis=1).max()) + 1.0
    origins = (middle + heights[:, None, None] * axis + far * outward[None]).reshape(-1, 3)
    hits = first_hits(solid, face_normals(solid), origins, np.tile(-outward, (len(heights), 1)))
    felt = np.full(len(origins), np.nan)
    felt[hits.ray] = far - hits.distance_mm
    radii = felt.reshape(len(heights), RAYS_N)
    least, most = radii.min(axis=1), radii.max(axis=1)
    even = most - least <= ROUND_SHARE * most  # false where a ray met nothing
    kept = _stretch(even, int(np.abs(heights).argmin()))
    return heights[kept], most[kept]


def _stretch(even: NDArray[np.bool_], near: int) -> NDArray[np.int64]:
    """Return the places of the unbroken stretch of true values that lies nearest to a place."""
    true = np.flatnonzero(even)
    if not len(true):
        return true
    parts = np.split(true, np.flatnonzero(np.diff(true) > 1) + 1)
    return min(parts, key=lambda part: int(np.abs(part - near).min()))
