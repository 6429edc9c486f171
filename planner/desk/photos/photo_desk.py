"""Photos on the desk: of each only the camera that took it stays in memory, and two points give a length."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from threading import Lock
from typing import Any

from planner.errors import PhotoError
from planner.output import photo_json, photo_lines
from planner.photo import (
    ABOVE_MOST_MM,
    ABOVE_OFF_MOST_MM,
    CLICK_PX,
    RULER_LEAST_MM,
    RULER_MOST_MM,
    FittedCamera,
    Length,
    checked_points,
    find_card,
    fitted_camera,
    measured,
    photo_of,
)

PHOTOS_MOST = 8
"""So many pages may measure at a time: the oldest photo's camera goes first."""
CLICK_MOST_PX = 200.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SeenCard:
    """What is kept of a photo: its camera, its width and height in pixels, and how many marks were seen."""

    fitted: FittedCamera
    size_px: tuple[int, int]
    marks_n: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Taken:
    """A length of a photo, and whether it is a round limb's width."""

    length: Length
    marks_n: int
    is_round: bool

    def told(self) -> dict[str, object]:
        """Return it as the page shows it."""
        facts = photo_json(self.length, self.marks_n, is_round=self.is_round)
        lines = photo_lines(self.length, self.marks_n, is_round=self.is_round)
        return {**facts, "lines": [line for line in lines if line != facts["again"]]}


class PhotoDesk:
    """The cameras of the photos that pages measure in, by a number that only its page knows.

    Raises
    ------
    PhotoError
        From every method, in one sentence, where a photo shows no card or is not known any more, or a number cannot be.
    """

    def __init__(self) -> None:
        self._seen: dict[str, SeenCard] = {}
        self._lock = Lock()

    def add(self, data: bytes) -> dict[str, object]:
        """Find the card in a photo; return its number, and its size in pixels as a viewer shows it."""
        photo = photo_of(data, "the photo")
        size_px = (photo.grey.shape[1], photo.grey.shape[0])
        card = find_card(photo.grey)
        seen = SeenCard(fitted=fitted_camera(card, size_px, photo.focal_35_mm), size_px=size_px, marks_n=card.marks_n)
        number = secrets.token_urlsafe(12)
        with self._lock:
            self._seen[number] = seen
            while len(self._seen) > PHOTOS_MOST:
                del self._seen[next(iter(self._seen))]
        camera = seen.fitted.camera
        return {
            "photo": number,
            "wide_px": size_px[0],
            "high_px": size_px[1],
            "marks_n": card.marks_n,
            "tilt_deg": camera.tilt_deg,
        }

    def forget(self, number: str) -> None:
        """Forget a photo's camera; one that is not known is forgotten already."""
        with self._lock:
            self._seen.pop(number, None)

    def length(self, number: str, asked: Mapping[str, Any]) -> Taken:
        """Return the length between two points of a photo.

        ``asked`` holds ``points_px`` (X1, Y1, X2, Y2 from the upper left), ``click_px`` (how far off they may be each
        way), ``above_mm`` and ``above_off_mm``, ``ruler_mm``, and ``round``.
        """
        with self._lock:
            seen = self._seen.get(number)
        if seen is None:
            raise PhotoError(where="the photo", wrong="the desk does not have it any more", todo="drop it in again")
        points = asked.get("points_px")
        if not isinstance(points, list) or len(points) != 4:
            raise PhotoError(where="the points", wrong="these are not four numbers", todo="set both marks")
        numbers = [_number(one, "a point", -1e6, 1e6) for one in points]
        is_round = asked.get("round") is True
        found = measured(
            seen.fitted,
            checked_points(numbers, seen.size_px, "the marks"),
            _number(asked.get("above_mm"), "height above the card", -ABOVE_MOST_MM, ABOVE_MOST_MM),
            _number(asked.get("above_off_mm"), "how far that may be off", 0.0, ABOVE_OFF_MOST_MM),
            _number(asked.get("ruler_mm"), "the card's ruler", RULER_LEAST_MM, RULER_MOST_MM),
            max(CLICK_PX, _number(asked.get("click_px"), "how far off a mark may be", 0.0, CLICK_MOST_PX)),
            is_round=is_round,
        )
        return Taken(length=found, marks_n=seen.marks_n, is_round=is_round)


def _number(value: Any, called: str, least: float, most: float) -> float:
    """Return a number that lies where it can be."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not least <= value <= most:
        said = "it is not stated" if value is None else f"{str(value)[:40]!r} cannot be"
        raise PhotoError(where=called, wrong=said, todo=f"give {least:g} to {most:g}")
    return float(value)
