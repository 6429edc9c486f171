"""Measured: the length between two points of a photo, or the width of a round limb between its two edges, in mm."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.photo.camera import Camera
from planner.photo.fitted_camera import FittedCamera

Floats = NDArray[np.float64]
CLICK_PX = 1.0
"""How far off a point is each way, of 95 of 100 points; no source."""
PRINT_SHARE = 0.002
"""How far a printed sheet's own scale may be off beside what its ruler says; common practice, no source."""
SURE_N = 1.96
"""Of 100 true lengths 95 lie within so many standard deviations (normal distribution)."""
SKEW_DEG = 5.0
"""How far the line between the edges of a limb may be off square; no source. At most so much it is too long."""
STEP_SHARE = 1e-4
RULER_LEAST_MM, RULER_MOST_MM = 80.0, 120.0
"""No printer is so far off: the card's ruler of 100 mm measures something between."""
ABOVE_MOST_MM, ABOVE_OFF_MOST_MM = 300.0, 100.0
"""A card that lies further off, or whose height nobody knows, measures nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A length in mm with the range that 95 of 100 true ones lie in, and what the photo was like.

    ``parts_mm`` are half ranges by what makes them: points, height above the card, card and lens, print, and whether a
    limb was measured square across.
    """

    value_mm: float
    low_mm: float
    high_mm: float
    tilt_deg: float
    away_mm: float
    parts_mm: dict[str, float]

    @property
    def half_percent(self) -> float:
        """Half of its range, in percent of it."""
        return 50.0 * (self.high_mm - self.low_mm) / self.value_mm


def flat_mm(camera: Camera, pixels: Floats, above_mm: float) -> float:
    """Return the distance of two points at one height above the card."""
    one, two = camera.on_level(pixels, above_mm)
    return float(np.linalg.norm(two - one))


def round_mm(camera: Camera, pixels: Floats, above_mm: float) -> float:
    """Return the width of a round limb whose two edges are seen, its middle at a height above the card.

    The limb lies across the line between the points. Planes from the camera along the limb through both edges touch it;
    half of the angle between them and the distance of the middle give its radius: r = d sin(angle).
    """
    ways = camera.rays(pixels)
    one, two = camera.on_level(pixels, above_mm)
    across = (two - one) / np.linalg.norm(two - one)
    limb = np.array([-across[1], across[0], 0.0])  # lies as the card does
    flat = [_unit(way - limb * (way @ limb)) for way in ways]
    half = 0.5 * float(np.arccos(np.clip(flat[0] @ flat[1], -1.0, 1.0)))
    ahead = _unit(flat[0] + flat[1])
    eye = camera.eye_mm
    far = (-above_mm - eye[2]) / ahead[2]
    return 2.0 * float(far * np.sin(half))


def measured(
    fitted: FittedCamera,
    points_px: Floats,
    above_mm: float = 0.0,
    above_off_mm: float = 10.0,
    ruler_mm: float = 100.0,
    click_px: float = CLICK_PX,
    *,
    is_round: bool = False,
) -> Length:
    """Return a length with its range.

    Parameters
    ----------
    points_px
        (2, 2): both points in pixels from the upper left.
    above_mm, above_off_mm
        How high the points, or a round limb's middle, lie above the card, and how far that may be off: the true height
        lies within it.
    ruler_mm
        What the card's ruler measures: 100 where it was printed true.
    click_px
        How far off the points may be each way.
    is_round
        Whether the points are the two edges of a round limb.
    """
    of: Callable[[Camera, Floats, float], float] = round_mm if is_round else flat_mm
    camera, numbers = fitted.camera, fitted.camera.numbers
    printed = ruler_mm / 100.0
    above = above_mm / printed  # the card's own mm
    value = of(camera, points_px, above)

    def moved(by: Floats) -> float:
        return of(Camera(numbers=numbers + by), points_px, above)

    sure = np.sqrt(np.diag(fitted.covariance))
    steps = [np.where(np.arange(len(numbers)) == k, STEP_SHARE * sure[k], 0.0) for k in range(len(numbers))]
    slope = np.array([(moved(step) - moved(-step)) / (2.0 * STEP_SHARE * sure[k]) for k, step in enumerate(steps)])
    camera_mm = float(np.sqrt(max(slope @ fitted.covariance @ slope, 0.0)))
    per_px = [
        (of(camera, points_px + step, above) - of(camera, points_px - step, above)) / 2.0
        for step in np.eye(4).reshape(4, 2, 2)
    ]
    click_mm = click_px * float(np.linalg.norm(per_px))
    off = above_off_mm / printed
    height_mm = abs(of(camera, points_px, above + off) - of(camera, points_px, above - off)) / 2.0
    parts = {
        "points": click_mm,
        "height": height_mm,
        "card and lens": SURE_N * camera_mm,
        "print": SURE_N * PRINT_SHARE * value,
        "square": value * (1.0 / math.cos(math.radians(SKEW_DEG)) - 1.0) if is_round else 0.0,
    }
    half = float(np.linalg.norm(list(parts.values())))
    middle = np.array([90.0, 120.0, 0.0])
    return Length(
        value_mm=printed * value,
        low_mm=printed * (value - half),
        high_mm=printed * (value + half),
        tilt_deg=camera.tilt_deg,
        away_mm=printed * float(np.linalg.norm(camera.eye_mm - middle)),
        parts_mm={name: printed * part for name, part in parts.items()},
    )


def _unit(way: Floats) -> Floats:
    """Return a way with length 1."""
    return np.asarray(way / np.linalg.norm(way))
