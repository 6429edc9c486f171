"""Support: what hangs over air more than the material carries, down to the bed or to the part below."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from manifold3d import Manifold, OpType
from numpy.typing import NDArray

from planner.layers.lines.overhangs import MITER, ROUND, SIMPLIFY_MM, Bridge, hanging_of
from planner.layers.lines.section import Section
from planner.survey import across

Floats = NDArray[np.float64]

ROD_FACETS_N = 24
GAP_MM = 0.3
"""Kept clear between support and walls; common practice, no source."""
MERGED_MM = 1.3
"""Gaps in the support of up to twice this, one spacing of its lines, are closed: strips become one column."""
SHARE = 0.15
"""Share of the support's volume that is laid; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Opening:
    """An opening that should stay free of support: round rods (n, 2, 3) by their ends in the pose, and their radius."""

    name: str
    rods_mm: Floats
    radius_mm: float

    def bodies(self) -> list[Manifold]:
        """Return the rods as solids."""
        turns = np.arange(ROD_FACETS_N) * 2 * np.pi / ROD_FACETS_N
        found = []
        for start, end in self.rods_mm:
            length = float(np.linalg.norm(end - start))
            if length < 1e-9:
                continue
            x, y = across((end - start) / length)
            rim = self.radius_mm * (np.cos(turns)[:, None] * x + np.sin(turns)[:, None] * y)
            found.append(Manifold.hull_points(np.vstack([start + rim, end + rim])))
        return found


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Supports:
    """Of every layer the space to be supported, what of it lies on support, and the bridges."""

    regions: list[Section]
    held_up: list[Section]
    bridges: list[tuple[Bridge, ...]]
    touched_mm2: float
    """Area of all that lies on support."""

    def volume_mm3(self, layer_mm: float) -> float:
        """Return the volume of the supported space, before the share that is laid."""
        return float(np.sum([region.area() for region in self.regions if not region.is_empty()])) * layer_mm

    def inside_mm3(self, opening: Opening, middles_mm: Floats, layer_mm: float) -> float:
        """Return the volume of the supported space inside an opening; ``middles_mm`` are the layers' mid-heights."""
        bodies = [(body, body.bounding_box()) for body in opening.bodies() if not body.is_empty()]
        total = 0.0
        for index, z in enumerate(middles_mm):
            cut = [body.slice(float(z)) for body, box in bodies if box[2] < z < box[5]]
            if cut and not self.regions[index].is_empty():
                total += float((self.regions[index] ^ Section.batch_boolean(cut, OpType.Add)).area()) * layer_mm
        return total


def supports_of(sections: list[Section], layer_mm: float, lean_deg: float) -> Supports:
    """Return the support region of every layer, from the top down; empty where none is needed.

    ``lean_deg`` is the steepest lean from vertical that prints by itself: each layer may reach
    h tan(lean) over the one below (geometry).
    """
    hangs = hanging_of(sections, layer_mm * math.tan(math.radians(min(lean_deg, 89.0))))
    overs = hangs.held_up
    found = [Section()] * len(sections)
    hanging = Section()
    for index in range(len(sections) - 2, -1, -1):
        if hanging.is_empty() and overs[index + 1].is_empty():
            continue
        hanging = ((hanging + overs[index + 1]) - sections[index]).simplify(SIMPLIFY_MM)
        column = hanging.offset(MERGED_MM, MITER).offset(-MERGED_MM, MITER) + hanging
        found[index] = column - sections[index].offset(GAP_MM, ROUND)  # laid clear of the walls, and held up to them
    touched = float(sum(over.area() for over in overs if not over.is_empty()))
    return Supports(regions=found, held_up=overs, bridges=hangs.bridges, touched_mm2=touched)
