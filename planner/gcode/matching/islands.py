"""Islands: what stands on the bed by itself, told by its lines over all heights."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from planner.gcode.matching.line_raster import CELL_MM, SLAB_MM, Laid

Floats = NDArray[np.float64]
Cells = NDArray[np.bool_]

GROUND_MM = 0.65
"""Prime strokes, skirts and brims lie below this; a part lower than twice of it is looked at from its first layer."""
AREA_LEAST_MM2 = 3.0
APART_CELLS = 1
"""Lines within this many cells of each other belong to one island."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Island:
    """One island: the ``cells`` of its shadow on the raster, the slabs it has lines in, its bottom and top in mm."""

    cells: Cells
    slabs: tuple[int, ...]
    bottom_mm: float
    top_mm: float

    def at(self, laid: Laid, z_mm: float, gap_mm: float) -> Floats:
        """Return the middles (n, 2) of the cells it fills at a height, gaps of its infill closed."""
        slab = min(self.slabs, key=lambda k: abs((k + 0.5) * SLAB_MM - z_mm))
        return laid.centres_mm(closed(laid.cells(slab) & self.cells, gap_mm))


def closing_mm(gap_mm: float) -> float:
    """Return the radius in mm, whole cells, of the disc that closes gaps up to a width."""
    return max(1, round(gap_mm / 2.0 / CELL_MM)) * CELL_MM


def closed(cells: Cells, gap_mm: float) -> Cells:
    """Return cells with gaps up to a width closed (morphological closing by a disc), with all holes for infinity."""
    if not np.isfinite(gap_mm):
        filled: Cells = ndimage.binary_fill_holes(closed(cells, CELL_MM))
        return filled
    radius = round(closing_mm(gap_mm) / CELL_MM)
    y, x = np.ogrid[-radius : radius + 1, -radius : radius + 1]
    rows, columns = np.flatnonzero(cells.any(axis=1)), np.flatnonzero(cells.any(axis=0))
    if not len(rows):
        return cells
    box = np.s_[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    padded = np.pad(cells[box], radius + 1)
    shut = ndimage.binary_closing(padded, structure=x * x + y * y <= radius * radius + 0.5)
    found = np.zeros_like(cells)
    inner = radius + 1
    found[box] = shut[inner:-inner, inner:-inner]
    return found


def islands_of(laid: Laid, layer_mm: float) -> list[Island]:
    """Return the islands of a raster, the largest first; lines on the ground alone make none."""
    if not laid.slabs:
        return []
    highest = max(laid.slabs)
    ground = 0 if (highest + 1) * SLAB_MM < 2 * GROUND_MM else int(GROUND_MM / SLAB_MM)
    shadow = np.zeros(laid.shape, dtype=np.bool_)
    above = [slab for slab in sorted(laid.slabs) if slab >= ground]
    for slab in above:
        shadow |= laid.cells(slab)
    grown = ndimage.binary_dilation(shadow, structure=np.ones((3, 3)), iterations=APART_CELLS)
    label, n = ndimage.label(grown, structure=np.ones((3, 3)))
    label[~shadow] = 0
    present: list[list[int]] = [[] for _ in range(n + 1)]
    for slab in sorted(laid.slabs):
        for k in np.unique(label[laid.cells(slab)]):
            present[int(k)].append(slab)
    found = []
    for k in range(1, n + 1):
        cells = label == k
        if float(cells.sum()) * CELL_MM**2 < AREA_LEAST_MM2 or not present[k]:
            continue
        top = present[k][-1] * SLAB_MM + min(layer_mm, SLAB_MM) / 2
        low = present[k][0] * SLAB_MM
        found.append(Island(cells=cells, slabs=tuple(present[k]), bottom_mm=low, top_mm=top))
    return sorted(found, key=lambda island: -int(island.cells.sum()))
