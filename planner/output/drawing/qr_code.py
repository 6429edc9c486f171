"""A short text as a square that cameras read: a QR code by ISO/IEC 18004, made by a library, drawn like all else."""

from __future__ import annotations

import segno

from planner.output.drawing.shapes import Drawing, box
from planner.output.tongue import ENGLISH, Tongue

MODULE_MM = 1.0
QUIET_N = 4
"""Modules of clear ground on every side (ISO/IEC 18004:2015, 6.3.8)."""


def qr_code(text: str, tongue: Tongue = ENGLISH) -> Drawing:
    """Return a text as a QR code, dark on clear; level Q stands a quarter of it worn off.

    Modules that touch in a row are one shape, so that no hairline is seen between them.
    """
    rows = [list(row) for row in segno.make_qr(text, error="q", boost_error=False).matrix]
    side_mm = (len(rows) + 2 * QUIET_N) * MODULE_MM
    shapes = []
    for down, row in enumerate(rows):
        y_mm, first = side_mm - (QUIET_N + down + 1) * MODULE_MM, 0
        while first < len(row):
            last = first
            while last < len(row) and row[last]:
                last += 1
            if last > first:
                x_mm, wide_mm = (QUIET_N + first) * MODULE_MM, (last - first) * MODULE_MM
                shapes.append(box(x_mm, y_mm, wide_mm, MODULE_MM, fill=0.0, stroke_mm=0.0))
            first = last + 1
    about = tongue.say("QR code of {text}", text=tongue.kept(text))
    return Drawing(width_mm=side_mm, height_mm=side_mm, about=about, shapes=tuple(shapes))
