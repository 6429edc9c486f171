"""Fitted: the camera that shows the card's corners where they are seen, and how sure each of its numbers is."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import least_squares

from planner.errors import PhotoError
from planner.photo.camera import Camera
from planner.photo.found_card import FoundCard

Floats = NDArray[np.float64]
FILM_MM = 36.0
"""Width of a picture on 35 mm film."""
FOCAL_SHARE, FOCAL_KNOWN, FOCAL_UNKNOWN = 0.85, 0.05, 0.35
"""Where the file does not say: the focal length over the long side (26 to 50 mm on film), and how far off both may be,
as one standard deviation of its logarithm; common practice, no source."""
MIDDLE_SHARE = 0.015
"""How far the lens's middle may be off the picture's, over the long side: one standard deviation, no source."""
BEND, BEND_AGAIN = 0.1, 0.05
"""How far a phone's lens may bend lines: standard deviations of k1 and k2; no source."""
CORNER_PX = 0.1
"""No corner is sure to less than this."""
WORST_PX = 3.0
"""Corners that are further off on average are not those of a flat card."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FittedCamera:
    """A camera, the (11, 11) covariance of its numbers, and how far off the corners are, in pixels on average."""

    camera: Camera
    covariance: Floats
    off_px: float


def fitted_camera(card: FoundCard, size_px: tuple[int, int], focal_35_mm: float | None = None) -> FittedCamera:
    """Fit a camera to the corners by least squares; what one photo does not tell is held by what lenses are like.

    Parameters
    ----------
    size_px
        Width and height of the photo.
    focal_35_mm
        What the file says of its lens.

    Raises
    ------
    PhotoError
        Where no camera shows a flat card so.
    """
    long_px = float(max(size_px))
    focal = long_px * (focal_35_mm / FILM_MM if focal_35_mm else FOCAL_SHARE)
    unsure = FOCAL_KNOWN if focal_35_mm else FOCAL_UNKNOWN
    middle = (np.array(size_px, float) - 1.0) / 2.0

    def off(numbers: Floats, corner_px: float) -> Floats:
        held = [
            np.log(max(numbers[0], 1.0) / focal) / unsure,
            *((numbers[1:3] - middle) / (MIDDLE_SHARE * long_px)),
            numbers[3] / BEND,
            numbers[4] / BEND_AGAIN,
        ]
        miss = Camera(numbers=numbers).seen_px(card.card_mm) - card.seen_px
        return np.concatenate([(miss / corner_px).ravel(), held])

    first = _first(card, focal, middle)
    scale = np.array([focal, *middle, 0.1, 0.1, 0.1, 0.1, 0.1, 100.0, 100.0, 1000.0])
    corner_px = 1.0
    for _ in range(2):  # once to learn how sure corners are, once with that
        found = least_squares(off, first, args=(corner_px,), x_scale=scale, method="lm")
        first = found.x
        miss = Camera(numbers=first).seen_px(card.card_mm) - card.seen_px
        corner_px = max(CORNER_PX, float(np.sqrt((miss**2).mean())))
    if corner_px > WORST_PX or first[10] <= 0.0:
        raise PhotoError(
            where="the photo",
            wrong=f"the card's corners are {corner_px:.1f} pixels off those of a flat card",
            todo="lay the card flat on something stiff, and take the photo again",
        )
    return FittedCamera(
        camera=Camera(numbers=first), covariance=np.linalg.inv(found.jac.T @ found.jac), off_px=corner_px
    )


def _first(card: FoundCard, focal: float, middle: Floats) -> Floats:
    """Return a first camera from the homography of the card without a bent lens (Zhang 2000, section 3.1)."""
    import cv2  # noqa: PLC0415  a fifth of a second, for photos alone

    lens = np.array([[focal, 0.0, middle[0]], [0.0, focal, middle[1]], [0.0, 0.0, 1.0]])
    found, turn, shift = cv2.solvePnP(card.card_mm, card.seen_px, lens, np.zeros(4), flags=cv2.SOLVEPNP_IPPE)
    if not found:
        raise PhotoError(where="the photo", wrong="the card is seen from nowhere", todo="take the photo again")
    return np.concatenate([[focal], middle, [0.0, 0.0], turn.ravel(), shift.ravel()])
