"""The card found in a photo: which marks are seen, and where their corners are."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.errors import PhotoError
from planner.photo.card import marks

Floats = NDArray[np.float64]
MARKS_LEAST_N = 4
"""Fewer marks do not tell a lens from a tilt."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FoundCard:
    """The corners of the marks that are seen: (n, 2) in pixels from the photo's upper left, (n, 3) on the card."""

    seen_px: Floats
    card_mm: Floats
    marks_n: int


def find_card(grey: NDArray[np.uint8]) -> FoundCard:
    """Find the card's marks in a grey picture, with corners to a fraction of a pixel.

    A pixel's middle has whole numbers, as in OpenCV.

    Raises
    ------
    PhotoError
        Where fewer than four of its marks are seen.
    """
    import cv2  # noqa: PLC0415  a fifth of a second, for photos alone

    settings = cv2.aruco.DetectorParameters()
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    finder = cv2.aruco.ArucoDetector(cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50), settings)
    corners, numbers, _ = finder.detectMarkers(grey)
    pairs = () if numbers is None else zip(numbers.ravel(), corners, strict=True)
    seen = {int(number): np.asarray(square, float).reshape(4, 2) for number, square in pairs}
    known = [mark for mark in marks() if mark.number in seen]
    if len(known) < MARKS_LEAST_N:
        raise PhotoError(
            where="the photo",
            wrong=f"{len(known)} of the card's {len(marks())} marks are seen",
            todo=f"show the whole card, flat, sharp and in even light: {MARKS_LEAST_N} marks or more are needed",
        )
    return FoundCard(
        seen_px=np.vstack([seen[mark.number] for mark in known]),
        card_mm=np.vstack([mark.corners_mm for mark in known]),
        marks_n=len(known),
    )
