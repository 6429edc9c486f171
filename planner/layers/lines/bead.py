"""The bead that a nozzle lays: a stadium, flat on top and bottom, round at the sides."""

from __future__ import annotations

import math


def bead_area_mm2(width_mm: float, height_mm: float) -> float:
    """Return the cross-section of a bead, (w - h) h + pi h2 / 4 = w h - h2 (1 - pi/4) (geometry).

    >>> round(bead_area_mm2(0.45, 0.2), 6)
    0.081416
    """
    return width_mm * height_mm - height_mm**2 * (1.0 - math.pi / 4.0)


def pitch_mm(width_mm: float, height_mm: float, share: float = 1.0) -> float:
    """Return the distance between neighbouring lines, so that a share of 1 fills the volume: A / (h share)."""
    return bead_area_mm2(width_mm, height_mm) / (height_mm * share)
