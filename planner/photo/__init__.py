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
from planner.photo.measured import Length, measured
from planner.photo.photo_file import Photo, read_photo
from planner.photo.points import points_px

__all__ = [
    "CELLS_N",
    "HIGH_MM",
    "MARK_MM",
    "RULER_AT_MM",
    "RULER_MM",
    "WIDE_MM",
    "Camera",
    "FittedCamera",
    "FoundCard",
    "Length",
    "Mark",
    "Photo",
    "black_cells",
    "find_card",
    "fitted_camera",
    "marks",
    "measured",
    "points_px",
    "read_photo",
]
