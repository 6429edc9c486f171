"""A name fitted into an outline: whole or shortened, level or turned, never smaller than can be read."""

from __future__ import annotations

import unicodedata
from collections.abc import Collection
from dataclasses import dataclass

import numpy as np
import shapely
import shapely.affinity

LINE_HIGH = 1.0
"""Height of a line of text over its size."""
LEAST_LETTERS_N = 4
"""A name cut shorter than this is not understood."""
CLEAR_MM = 0.4
"""Between a text and the outline."""
SIZES_N = 6
PLACES_N = 14
"""Places tried along each side of the outline's box."""
LEVEL_GAIN = 1.25
"""Turned text must be this much larger than level text to be worth turning one's head."""
_NARROW, _WIDE = set("fijlrtI1.,:;'|!()[] -"), set("mwMW@%&")


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedName:
    """A text in an outline: its middle, its size in mm, and by how much it is turned counter-clockwise."""

    text: str
    x_mm: float
    y_mm: float
    size_mm: float
    turn_deg: float


def width_of(text: str) -> float:
    """Return how wide a text is over its size, on the wide side of what system fonts draw.

    >>> round(width_of("jaw"), 2)
    2.11
    """
    return sum(_width(letter) for letter in text)


def _width(letter: str) -> float:
    """Return the width of one letter over the size of the type."""
    if unicodedata.combining(letter):
        return 0.0
    if unicodedata.east_asian_width(letter) in "WF" or ord(letter) > 0xFFFF:
        return 1.3
    if letter in _NARROW:
        return 0.45
    return 1.0 if letter in _WIDE else 0.8 if letter.isupper() else 0.66


def fitted_name(
    name: str, outline: shapely.Polygon, *, least_mm: float, most_mm: float, others: Collection[str] = ()
) -> FittedName | None:
    """Return a name where it fits into an outline, or None.

    The whole name comes first; then it is cut, but never so that another name of ``others`` starts the same.
    """
    rivals = [other for other in others if other != name]
    texts = [name]
    for letters in range(len(name) - 2, LEAST_LETTERS_N - 1, -1):
        start = name[:letters].rstrip()
        if not any(other.startswith(start) for other in rivals):
            texts.append(start + "…")
    for text in texts:
        found = _placed(text, outline, least_mm, most_mm)
        if found is not None:
            return found
    return None


def _placed(text: str, outline: shapely.Polygon, least_mm: float, most_mm: float) -> FittedName | None:
    """Return the largest way in which one text fits, level before turned."""
    wide = width_of(text)
    best: FittedName | None = None
    inner = outline.buffer(-CLEAR_MM)
    if inner.is_empty:
        return None
    for turn in dict.fromkeys((0.0, 90.0, _long_turn(outline))):
        flat = shapely.affinity.rotate(inner, -turn, origin=(0.0, 0.0))
        x0, y0, x1, y1 = flat.bounds
        most = min(most_mm, max(x1 - x0, 1e-6) / wide, (y1 - y0) / LINE_HIGH)
        least = max(least_mm, LEVEL_GAIN * best.size_mm if best else 0.0)
        if most < least:
            continue
        shapely.prepare(flat)
        for size in np.linspace(most, least, SIZES_N):
            half = np.array([wide * size, LINE_HIGH * size]) / 2
            across = np.linspace(x0 + half[0], x1 - half[0], PLACES_N)
            along = np.linspace(y0 + half[1], y1 - half[1], PLACES_N)
            middles = np.array(np.meshgrid(across, along)).reshape(2, -1)
            boxes = shapely.box(middles[0] - half[0], middles[1] - half[1], middles[0] + half[0], middles[1] + half[1])
            fits = shapely.covers(flat, boxes)
            if fits.any():
                free = shapely.distance(boxes, flat.boundary)
                off = np.hypot(*(middles - np.array([[x0 + x1], [y0 + y1]]) / 2))
                x, y = middles[:, int(np.where(fits, free - 0.01 * off, -np.inf).argmax())]
                back = shapely.affinity.rotate(shapely.Point(x, y), turn, origin=(0.0, 0.0))
                best = FittedName(text=text, x_mm=back.x, y_mm=back.y, size_mm=float(size), turn_deg=turn)
                break
    return best


def _long_turn(outline: shapely.Polygon) -> float:
    """Return the direction of the outline's long side in degrees, so that a text along it is never upside down."""
    box = shapely.minimum_rotated_rectangle(outline)
    if not isinstance(box, shapely.Polygon):
        return 0.0
    sides = np.diff(np.asarray(box.exterior.coords)[:3], axis=0)
    x, y = max(sides, key=lambda side: float(np.hypot(*side)))
    turn = round(float(np.degrees(np.arctan2(y, x))), 1) % 180.0
    return turn - 180.0 if turn > 90.0 else turn
