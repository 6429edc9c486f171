"""Points on a photo, as a person writes them: two places in pixels from the upper left."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from planner.errors import PhotoError

APART_LEAST_PX = 5.0
"""Points nearer to each other measure nothing but their own error."""


def points_px(said: str, size_px: tuple[int, int]) -> NDArray[np.float64]:
    """Return two points, (2, 2), on a photo so wide and high; pixel 0, 0 is the upper left.

    >>> points_px("10, 20, 30, 40", (100, 100)).tolist()
    [[10.0, 20.0], [30.0, 40.0]]

    Raises
    ------
    PhotoError
        Where they are not four numbers, lie outside the photo, or nearly on each other.
    """
    where = f"--points {said[:60]}"
    try:
        numbers = [float(word) for word in said.split(",")]
    except ValueError:
        numbers = []
    if len(numbers) != 4 or not all(map(math.isfinite, numbers)):
        raise PhotoError(where=where, wrong="these are not four numbers", todo="give X1,Y1,X2,Y2 in pixels")
    return checked_points(numbers, size_px, where)


def checked_points(numbers: Sequence[float], size_px: tuple[int, int], where: str) -> NDArray[np.float64]:
    """Return X1, Y1, X2, Y2 as two points, (2, 2); ``where`` is what a refusal calls them.

    Raises
    ------
    PhotoError
        Where they lie outside the photo, or nearly on each other.
    """
    pair = np.array(numbers).reshape(2, 2)
    if (pair < 0.0).any() or (pair > np.array(size_px)).any():
        raise PhotoError(
            where=where,
            wrong=f"a point lies outside the photo, which is {size_px[0]} x {size_px[1]} pixels as a viewer shows it",
            todo="count from its upper left corner",
        )
    if float(np.linalg.norm(pair[1] - pair[0])) < APART_LEAST_PX:
        raise PhotoError(where=where, wrong="both points are one place", todo="give the two ends of the length")
    return pair
