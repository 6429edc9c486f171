"""The camera of one photo: a pinhole with a round lens error, where it stood, and rays from pixels back to the card."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
UNBENT_N = 12
"""Rounds in which the lens error is taken out of a pixel: each leaves under a tenth of what the last one left."""
NAMES = ("focal", "middle x", "middle y", "bend", "bend again", "turn x", "turn y", "turn z", "x", "y", "z")
"""What a camera's numbers are, in their order."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Camera:
    """A camera over the card, as (11,) numbers: see ``NAMES``.

    The focal length and the middle are in pixels, the bends are the k1 and k2 of Brown (1966), the turn is a rotation
    vector and the last three the card's upper left corner in mm from the camera: x right, y down, z ahead.
    """

    numbers: Floats

    @property
    def turn(self) -> Floats:
        """(3, 3): from the card's axes to the camera's (Rodrigues)."""
        return rotation(self.numbers[5:8])

    @property
    def eye_mm(self) -> Floats:
        """Where the camera is, in the card's axes; what is above the card has a negative third number."""
        return np.asarray(-self.turn.T @ self.numbers[8:11])

    @property
    def tilt_deg(self) -> float:
        """The angle between the way that the camera looks and straight down on the card."""
        return float(np.degrees(np.arccos(np.clip(self.turn[2, 2], -1.0, 1.0))))

    def seen_px(self, points_mm: Floats) -> Floats:
        """Return where (n, 3) points in the card's axes are seen, (n, 2) in pixels."""
        at = points_mm @ self.turn.T + self.numbers[8:11]
        flat = at[:, :2] / at[:, 2:]
        return np.asarray(flat * _bent(self.numbers, flat)[:, None] * self.numbers[0] + self.numbers[1:3])

    def rays(self, pixels: Floats) -> Floats:
        """Return (n, 3) ways in the card's axes in which (n, 2) pixels look."""
        bent = (pixels - self.numbers[1:3]) / self.numbers[0]
        flat = bent
        for _ in range(UNBENT_N):
            flat = bent / _bent(self.numbers, flat)[:, None]
        ahead = np.column_stack([flat, np.ones(len(flat))])
        return np.asarray(ahead @ self.turn)

    def on_level(self, pixels: Floats, above_mm: float) -> Floats:
        """Return the (n, 3) places, in the card's axes, that pixels show at a height above the card."""
        ways, eye = self.rays(pixels), self.eye_mm
        along = (-above_mm - eye[2]) / ways[:, 2]
        return np.asarray(eye + along[:, None] * ways)


def _bent(numbers: Floats, flat: Floats) -> Floats:
    """Return how many times as far from the middle the lens shows (n, 2) directions."""
    far = (flat**2).sum(axis=1)
    return np.asarray(1.0 + numbers[3] * far + numbers[4] * far**2)


def rotation(vector: Floats) -> Floats:
    """Return the rotation about a vector by its length in radians (Rodrigues' formula, textbook)."""
    angle = float(np.linalg.norm(vector))
    if angle < 1e-12:
        return np.eye(3)
    x, y, z = vector / angle
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    return np.asarray(np.eye(3) + np.sin(angle) * cross + (1.0 - np.cos(angle)) * cross @ cross)
