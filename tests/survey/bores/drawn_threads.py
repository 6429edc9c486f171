"""Threads drawn as grooves in a block: V, trapezoid and square."""

from __future__ import annotations

import numpy as np
from manifold3d import CrossSection, FillRule

from tests.shapes import Manifold, cylinder

Profile = tuple[tuple[float, float], ...]
"""Corners of one groove: along the axis and outward from the land, both in pitches."""
PROFILES: dict[str, Profile] = {
    "V": ((0.1, 0.0), (0.5, 0.5), (0.9, 0.0)),
    "trapezoid": ((0.2, 0.0), (0.33, 0.5), (0.67, 0.5), (0.8, 0.0)),
    "square": ((0.25, 0.0), (0.25, 0.5), (0.75, 0.5), (0.75, 0.0)),
}


def rings(kind: str, minor_mm: float, pitch_mm: float, turns_n: int, n: int = 48) -> Manifold:
    """Return a block with a bore of a minor diameter and rings of grooves from its lower face on."""
    high = pitch_mm * turns_n
    body = Manifold.cube((20, 20, high), True).translate((0, 0, high / 2))
    body -= cylinder(minor_mm, high + 2, n).translate((0, 0, -1))
    for turn in range(turns_n):
        outline = [(minor_mm / 2 + out * pitch_mm, (turn + along) * pitch_mm) for along, out in PROFILES[kind]]
        outline = [(minor_mm / 4, outline[0][1]), *outline, (minor_mm / 4, outline[-1][1])]
        body -= _turned(outline, n)
    return body


def _turned(outline: list[tuple[float, float]], n: int) -> Manifold:
    """Return the ring that an outline (radius, height) makes about z, filled to the axis."""
    flat = CrossSection([np.array([(0.0, outline[0][1]), *outline, (0.0, outline[-1][1])])], FillRule.NonZero)
    return Manifold.revolve(flat, n)
