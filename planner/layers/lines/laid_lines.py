"""The lines of every layer of one part, in the order in which they are laid."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.job import Settings
from planner.layers.heights import layer_middles_mm, layer_tops_mm
from planner.layers.lines.bead import pitch_mm
from planner.layers.lines.paths import Path, begin_layer, lay_island
from planner.layers.lines.regions import MITER, Inset, insets, regions_of
from planner.layers.lines.section import Section, rings_of, sections_of, signed_area_mm2
from planner.layers.lines.support import SHARE, Supports, supports_of
from planner.mesh import Solid

Floats = NDArray[np.float64]

SIMPLIFY_MM = 0.001
"""Corners that change an outline by less than this are left out."""
SUPPORT_LEAST_MM3 = 20.0
"""Less supported space than this is left to luck and a knife; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LaidLayer:
    """One layer: its top above the bed, its height, its lines, and the area that single narrow lines fill."""

    top_mm: float
    height_mm: float
    path: Path
    narrow_mm2: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LaidPart:
    """A part cut into layers; ``approximate`` says why its sections are only guessed, empty for a sound mesh.

    ``within`` is where the middle of a line of support may run: half a line inside the shadow of all layers.
    """

    settings: Settings
    sections: list[Section]
    supports: Supports
    within: Section
    tops_mm: Floats
    needs_support: bool
    approximate: str

    def layers(self) -> Iterator[LaidLayer]:
        """Lay out one layer after the other, from the bed up."""
        settings = self.settings
        width, layer, first = (
            settings.line_width_mm.value,
            settings.layer_height_mm.value,
            settings.first_layer_height_mm.value,
        )
        solid_n = (
            math.ceil(settings.solid_bottom_mm.value / layer - 1e-9),
            math.ceil(settings.solid_top_mm.value / layer - 1e-9),
        )
        share = settings.infill_percent.value / 100.0
        laid = self.needs_support and settings.support == "where-needed"
        last: tuple[Section, float, list[Inset]] | None = None
        for index, section in enumerate(self.sections):
            high = first if index == 0 else layer
            if last is not None and last[1] == high and _equal(last[0], section):
                islands = last[2]  # a prism repeats its layers
            else:
                islands = [insets(island, width, high, settings.contours_n) for island in section.decompose()]
            last = (section, high, islands)
            path = Path()
            begin_layer(
                path,
                brim=_brim(section, settings, width, high) if index == 0 else [],
                support=(
                    self.supports.regions[index] ^ self.within if laid else Section(),
                    pitch_mm(width, high, SHARE),
                ),
            )
            for inset in islands:
                lay_island(
                    path,
                    regions_of(
                        self.sections,
                        index,
                        inset,
                        solid_n=solid_n,
                        bridges=self.supports.bridges[index],
                        width_mm=width,
                    ),
                    pitches_mm=(pitch_mm(width, high), pitch_mm(width, high, share) if share > 0 else 0.0),
                    angle_deg=45.0 if index % 2 else -45.0,
                )
            narrow = sum(inset.narrow_mm2 for inset in islands)
            yield LaidLayer(top_mm=float(self.tops_mm[index]), height_mm=high, path=path, narrow_mm2=narrow)


def laid_layers(solid: Solid, settings: Settings) -> LaidPart:
    """Cut a solid in its pose into layers; the lines are laid out as they are asked for.

    All that is laid stays within the solid's shadow grown by the brim: what is held up is part of the layer that it
    holds, support fills the space straight below, and its beads end at the shadow's edge.
    """
    layer, first = settings.layer_height_mm.value, settings.first_layer_height_mm.value
    tops = layer_tops_mm(float(solid.bounds_mm[1, 2]), first, layer)
    found, approximate = sections_of(solid, layer_middles_mm(tops))
    sections = [section.simplify(SIMPLIFY_MM) for section in found]
    supports = supports_of(sections, layer, settings.self_supporting_deg.value)
    needed = supports.volume_mm3(layer) > SUPPORT_LEAST_MM3
    return LaidPart(
        settings=settings,
        sections=sections,
        supports=supports,
        within=_shadow(solid, sections).offset(-settings.line_width_mm.value / 2, MITER) if needed else Section(),
        tops_mm=tops,
        needs_support=needed,
        approximate=approximate,
    )


def _shadow(solid: Solid, sections: list[Section]) -> Section:
    """Return the shadow of a solid; of an unsound one that of its layers."""
    if solid.manifold is not None:
        return solid.manifold.project()
    rows = list(sections)
    while len(rows) > 1:  # by twos: uniting all at once takes much longer where they are alike
        rows = [rows[k] + rows[k + 1] if k + 1 < len(rows) else rows[k] for k in range(0, len(rows), 2)]
    return rows[0] if rows else Section()


def _equal(one: Section, other: Section) -> bool:
    """Return whether two sections are the same outline."""
    if one.num_vert() != other.num_vert() or one.num_contour() != other.num_contour():
        return False
    return all(
        len(a) == len(b) and np.allclose(a, b, atol=1e-6)
        for a, b in zip(one.to_polygons(), other.to_polygons(), strict=True)
    )


def _brim(section: Section, settings: Settings, width_mm: float, height_mm: float) -> list[Section]:
    """Return the loops of the brim, outermost first, a pitch apart, outside the outline and never in its holes.

    The outermost bead ends within the brim's width: plates are laid out with no more around an outline.
    """
    pitch = pitch_mm(width_mm, height_mm)
    loops_n = max(0, math.floor((settings.brim_mm.value - width_mm) / pitch + 1.0 + 1e-9))
    outside = Section([ring for ring in rings_of(section) if signed_area_mm2(ring) > 0.0])
    return [outside.offset(width_mm / 2 + k * pitch) for k in range(loops_n - 1, -1, -1)]
