"""The card: eight square marks and a ruler on one sheet, so that a photo tells where its camera was."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

WIDE_MM, HIGH_MM = 180.0, 240.0
"""Of the rectangle that the marks lie in: it fits on A4 and on Letter with a margin."""
MARK_MM = 30.0
"""Side of a mark, its black border included."""
CELLS_N = 6
"""A mark is so many cells wide: four by four that tell its number, and a black one round them."""
RULER_MM = 100.0
RULER_AT_MM = (40.0, 150.0)
"""Where the ruler begins, from the card's upper left corner: it runs to the right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One mark: its number and its upper left corner on the card, x to the right and y down."""

    number: int
    x_mm: float
    y_mm: float

    @property
    def corners_mm(self) -> Floats:
        """(4, 3) corners on the card, clockwise from the upper left."""
        x, y, w = self.x_mm, self.y_mm, MARK_MM
        return np.array([[x, y, 0.0], [x + w, y, 0.0], [x + w, y + w, 0.0], [x, y + w, 0.0]])


def marks() -> tuple[Mark, ...]:
    """Return the marks: one in each corner and in the middle of each side of the card."""
    xs = (0.0, (WIDE_MM - MARK_MM) / 2, WIDE_MM - MARK_MM)
    ys = (0.0, (HIGH_MM - MARK_MM) / 2, HIGH_MM - MARK_MM)
    places = [(x, y) for y in ys for x in xs if (x, y) != (xs[1], ys[1])]
    return tuple(Mark(number=number, x_mm=x, y_mm=y) for number, (x, y) in enumerate(places))


def black_cells(number: int) -> NDArray[np.bool_]:
    """Return which of a mark's (6, 6) cells are black, the first row on top.

    The marks are the first of the 50 with four by four cells that OpenCV ships (Garrido-Jurado et al. 2014, Pattern
    Recognition 47, 2280, doi 10.1016/j.patcog.2014.01.005).
    """
    import cv2  # noqa: PLC0415  a fifth of a second, for photos alone

    drawn = cv2.aruco.generateImageMarker(cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50), number, CELLS_N)
    return np.asarray(drawn) < 128
