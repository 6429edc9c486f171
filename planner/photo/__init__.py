"""Photo: a limb's lengths and widths from a photo of it beside a printed card.

1. ``marks()`` is what is on the card, in mm; ``read_photo(path)`` reads a photo, of which nothing is kept.
2. ``find_card(grey)`` gives the corners of the marks that are seen.
3. ``fitted_camera(card, size, focal)`` gives the camera that shows them so, and how sure that is.
4. ``measured(fitted, points)`` gives the length between two points, or a round limb's width, with its range.
"""

from planner.photo.camera import Camera
from planner.photo.card import CELLS_N, HIGH_MM, MARK_MM, RULER_AT_MM, RULER_MM, WIDE_MM, Mark, black_cells, marks
from planner.photo.fitted_camera import FittedCamera, fitted_camera
from planner.photo.found_card import FoundCard, find_card
from planner.photo.measured import (
    ABOVE_MOST_MM,
    ABOVE_OFF_MOST_MM,
    CLICK_PX,
    RULER_LEAST_MM,
    RULER_MOST_MM,
    Length,
    measured,
)
from planner.photo.photo_file import Photo, photo_of, read_photo, without_place
from planner.photo.points import checked_points, points_px

__all__ = [
    "ABOVE_MOST_MM",
    "ABOVE_OFF_MOST_MM",
    "CELLS_N",
    "CLICK_PX",
    "HIGH_MM",
    "MARK_MM",
    "RULER_AT_MM",
    "RULER_LEAST_MM",
    "RULER_MM",
    "RULER_MOST_MM",
    "WIDE_MM",
    "Camera",
    "FittedCamera",
    "FoundCard",
    "Length",
    "Mark",
    "Photo",
    "black_cells",
    "checked_points",
    "find_card",
    "fitted_camera",
    "marks",
    "measured",
    "photo_of",
    "points_px",
    "read_photo",
    "without_place",
]
