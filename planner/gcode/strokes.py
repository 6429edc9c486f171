"""Strokes: every line that a program lays, in the order in which it lays them."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Mask = NDArray[np.bool_]

LEVEL_DIGITS = 2
"""Lines within a hundredth of a millimetre in height belong to one layer."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strokes:
    """Straight lines with filament: ends (n, 2) from above, the height of their top, and the volume laid.

    ``level_mm`` is the height of the layer that a line belongs to; lines of a spiral are put into layers.
    """

    start_mm: Floats
    end_mm: Floats
    level_mm: Floats
    volume_mm3: Floats

    def __len__(self) -> int:
        return len(self.level_mm)

    @property
    def length_mm(self) -> Floats:
        """Lengths from above."""
        length: Floats = np.linalg.norm(self.end_mm - self.start_mm, axis=1)
        return length

    @property
    def middle_mm(self) -> Floats:
        """Middles (n, 2)."""
        return (self.start_mm + self.end_mm) / 2.0

    def where(self, mask: Mask | NDArray[np.intp] | slice) -> Strokes:
        """Return some of them."""
        return Strokes(
            start_mm=self.start_mm[mask],
            end_mm=self.end_mm[mask],
            level_mm=self.level_mm[mask],
            volume_mm3=self.volume_mm3[mask],
        )

    def seen_from(self, matrix: Floats, offset_mm: Floats) -> Strokes:
        """Return them in another frame: ``matrix @ point + offset``."""
        return Strokes(
            start_mm=self.start_mm @ matrix.T + offset_mm,
            end_mm=self.end_mm @ matrix.T + offset_mm,
            level_mm=self.level_mm,
            volume_mm3=self.volume_mm3,
        )

    def in_layers_of(self, first_mm: float, layer_mm: float) -> Strokes:
        """Return them with their heights put into layers, as a spiral's must be."""
        layer = np.maximum(np.ceil((self.level_mm - first_mm) / layer_mm - 1e-6), 0.0)
        return Strokes(
            start_mm=self.start_mm,
            end_mm=self.end_mm,
            level_mm=np.round(first_mm + layer_mm * layer, 3),
            volume_mm3=self.volume_mm3,
        )


def joined(pieces: list[Strokes]) -> Strokes:
    """Return strokes one after the other."""
    return Strokes(
        start_mm=np.concatenate([np.empty((0, 2)), *[one.start_mm for one in pieces]]),
        end_mm=np.concatenate([np.empty((0, 2)), *[one.end_mm for one in pieces]]),
        level_mm=np.concatenate([np.empty(0), *[one.level_mm for one in pieces]]),
        volume_mm3=np.concatenate([np.empty(0), *[one.volume_mm3 for one in pieces]]),
    )


def bead_width_mm(area_mm2: Floats, height_mm: float) -> Floats:
    """Return the width of a stadium of an area and a height: A / h + h (1 - pi / 4) (geometry)."""
    return area_mm2 / height_mm + height_mm * (1.0 - math.pi / 4.0)
