"""Differences of a copy, gathered over its layers: connected places with their area, volume and heights."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from planner.gcode.copies.fine_raster import FineRaster

Cells = NDArray[np.bool_]

NEAR_CELLS = 4
"""Cells this near to each other belong to one place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One place, in the part's frame: its middle and extent from above, area, volume, and between which heights."""

    at_mm: tuple[float, float]
    size_mm: tuple[float, float]
    area_mm2: float
    volume_mm3: float
    low_mm: float
    high_mm: float


class Stack:
    """Layers of cells on each other, seen from above: how much volume each column holds, and from where to where."""

    def __init__(self, raster: FineRaster) -> None:
        self.raster = raster
        self.height_mm = np.zeros(raster.shape, dtype=np.float32)
        self.low_mm = np.full(raster.shape, np.inf, dtype=np.float32)
        self.high_mm = np.full(raster.shape, -np.inf, dtype=np.float32)

    def add(self, cells: Cells, height_mm: float, top_mm: float) -> None:
        """Add the cells of a layer."""
        if not cells.any():
            return
        self.height_mm[cells] += height_mm
        self.low_mm[cells] = np.minimum(self.low_mm[cells], top_mm - height_mm)
        self.high_mm[cells] = np.maximum(self.high_mm[cells], top_mm)

    def differences(self, area_mm2: float, volume_mm3: float) -> tuple[Difference, ...]:
        """Return the places of at least an area and a volume, the largest volume first; less is a seam or a blob."""
        there = self.height_mm > 0.0
        if not there.any():
            return ()
        near = np.ones((3, 3), dtype=np.bool_)
        label, n = ndimage.label(ndimage.binary_dilation(there, structure=near, iterations=NEAR_CELLS), structure=near)
        label[~there] = 0
        cell = self.raster.cell_mm
        found = []
        for index, box in enumerate(ndimage.find_objects(label, n), 1):
            mine = label[box] == index
            area, volume = float(mine.sum()) * cell**2, float(self.height_mm[box][mine].sum()) * cell**2
            if area < area_mm2 or volume < volume_mm3:
                continue
            rows, columns = np.nonzero(mine)
            middle = self.raster.middle_mm(
                box[0].start + (rows.min() + rows.max()) / 2, box[1].start + (columns.min() + columns.max()) / 2
            )
            found.append(
                Difference(
                    at_mm=middle,
                    size_mm=((np.ptp(columns) + 1) * cell, (np.ptp(rows) + 1) * cell),
                    area_mm2=area,
                    volume_mm3=volume,
                    low_mm=float(self.low_mm[box][mine].min()),
                    high_mm=float(self.high_mm[box][mine].max()),
                )
            )
        return tuple(sorted(found, key=lambda one: -one.volume_mm3))
