"""A part as the plan means it, and its mirror image, with their sections and where support may stand."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.gcode.copies.fine_raster import FineRaster
from planner.gcode.copies.piece import Sections
from planner.gcode.matching.match import Pose
from planner.job import Settings
from planner.layers import Section
from planner.mesh import Solid

Floats = NDArray[np.float64]

AROUND_MM = 2.0
BESIDE_MM, UNDER_MM = 1.5, 0.3
"""Support may stand this far beside the part's shadow, and this far beside what it carries within it."""
SIMPLE_MM = 0.01


@dataclass(frozen=True, kw_only=True)
class Original:
    """A sound part and its mirror image; ``support`` says for heights, from the bed up, where support may stand."""

    solid: Solid
    mirrored: Solid
    sections: Sections
    mirrored_sections: Sections
    support: tuple[Section, ...]
    support_mm: Floats

    @classmethod
    def of(cls, solid: Solid, settings: Settings, *, support: bool) -> Original:
        """Return a part; where it stands on support, that may be anywhere under the part and a little beside it."""
        mirrored, sections = solid.mirrored(), Sections.of(solid)
        heights = np.arange(0.0, solid.size_mm[2], settings.layer_height_mm.value) if support else np.empty(0)
        return cls(
            solid=solid,
            mirrored=mirrored,
            sections=sections,
            mirrored_sections=Sections.of(mirrored),
            support=_under(sections, heights),
            support_mm=heights,
        )

    def sections_of(self, pose: Pose) -> Sections:
        """Return the sections that a pose lies over."""
        return self.mirrored_sections if pose.mirrored else self.sections

    def raster(self, pose: Pose) -> FineRaster:
        """Return a raster over the part."""
        bounds = (self.mirrored if pose.mirrored else self.solid).bounds_mm
        return FineRaster.over(bounds[0, :2], bounds[1, :2], AROUND_MM)

    def allowed(self, pose: Pose, z_mm: float) -> Section:
        """Return where support may stand at a height; of a mirrored piece its image."""
        if not self.support:
            return Section()
        region = self.support[max(int(np.searchsorted(self.support_mm, z_mm)) - 1, 0)]
        return region.mirror((1.0, 0.0)) if pose.mirrored else region


def _under(sections: Sections, heights_mm: Floats) -> tuple[Section, ...]:
    """Return what lies under some of the part at each height: what has no part above, such as a bore, stays free."""
    if not len(heights_mm):
        return ()
    shadow = sections.body.project()
    outline = Section([ring for ring in shadow.to_polygons() if _area(ring) > 0.0])
    beside = outline.offset(BESIDE_MM) - outline
    found, above = [], Section()
    for z in heights_mm[::-1]:
        above = (above + sections.at(float(z))).simplify(SIMPLE_MM)
        found.append(above.offset(UNDER_MM) + beside)
    return tuple(found[::-1])


def _area(ring: Floats) -> float:
    """Return the area of a ring, negative for a hole (shoelace formula)."""
    x, y = np.asarray(ring, dtype=np.float64).T
    return float(x @ np.roll(y, -1) - np.roll(x, -1) @ y) / 2.0
