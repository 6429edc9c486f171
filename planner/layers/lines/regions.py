"""What is laid where in a layer: contours along the outline, solid fill near top and bottom, infill elsewhere."""

from __future__ import annotations

from dataclasses import dataclass, replace

import manifold3d

from planner.layers.lines.bead import pitch_mm
from planner.layers.lines.overhangs import Bridge
from planner.layers.lines.section import Section

MITER = manifold3d.JoinType.Miter
INTERSECT = manifold3d.OpType.Intersect
TWO_LANES = 0.99
"""Half of two lanes, in pitches; a hundredth is left to rounding."""
OPEN_MM = 0.05
"""Slivers of fill thinner than a tenth of a line are not laid."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Regions:
    """Of one layer: centre lines of the contours, outer first, the areas of both fills, and the bridges among them."""

    contours: tuple[Section, ...]
    solid: Section
    infill: Section
    bridges: tuple[Bridge, ...]
    narrow_mm2: float
    """Area too narrow for a contour or for fill, laid as single lines along it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Inset:
    """Contours of one outline, the area left for filling, and the area too narrow for either."""

    lines: tuple[Section, ...]
    fill: Section
    narrow_mm2: float


def insets(section: Section, width_mm: float, height_mm: float, contours_n: int) -> Inset:
    """Lay contours along an outline and keep account of every bit of area.

    The outer bead touches the outline, so its own lane, a pitch wide, begins (w - p) / 2 inside; each further
    lane lies against the last. Where what is left is narrower than a lane, it becomes a single narrow line.
    """
    pitch = pitch_mm(width_mm, height_mm)
    thin = narrow = thin_area_mm2(section, width_mm)
    left = section.offset(-(width_mm - pitch) / 2, MITER)
    lines: list[Section] = []
    for k in range(contours_n):
        # A contour runs there and back, so it needs two lanes; a place with room for one gets a single line.
        wide = left.offset(-TWO_LANES * pitch, MITER).offset(TWO_LANES * pitch, MITER)
        lost = max(float(left.area()) - float(wide.area()), 0.0)
        narrow += lost if k else max(lost - thin, 0.0)  # the outline's own thin places are counted already
        if wide.is_empty():
            return Inset(lines=tuple(lines), fill=Section(), narrow_mm2=narrow)
        lines.append(wide.offset(-pitch / 2, MITER))
        left = wide.offset(-pitch, MITER)
    fill, gaps = parted(left, width_mm)
    return Inset(lines=tuple(lines), fill=fill, narrow_mm2=narrow + gaps)


def thin_area_mm2(section: Section, width_mm: float) -> float:
    """Return the area of an outline that no bead of full width fits into."""
    wide = section.offset(-width_mm / 2, MITER).offset(width_mm / 2, MITER)
    thin = section - wide.offset(OPEN_MM, MITER)
    return float(thin.area()) if not thin.is_empty() else 0.0


def parted(fill: Section, width_mm: float) -> tuple[Section, float]:
    """Part a fill into what is wide enough for lines across, and the area of what is narrower than two lines.

    A gap between contours is filled along its length, not across: short lines across would only stop and go.
    """
    if fill.is_empty():
        return fill, 0.0
    wide = fill.offset(-width_mm, MITER).offset(width_mm, MITER)
    return wide, max(float(fill.area()) - float(wide.area()), 0.0)


def regions_of(
    sections: list[Section],
    index: int,
    inset: Inset,
    *,
    solid_n: tuple[int, int],
    bridges: tuple[Bridge, ...],
    width_mm: float,
) -> Regions:
    """Split the fill of a layer: infill where plastic lies on all of the layers above and below, else solid.

    ``solid_n`` are the numbers of solid layers at the bottom and the top. What bridges is laid across its span,
    and a line's width further, to rest on plastic.
    """
    fill = inset.fill
    below, above = index - solid_n[0], index + solid_n[1]
    core, solid = Section(), fill
    if below >= 0 and above < len(sections):
        near = [sections[k] for k in range(below, above + 1) if k != index]
        core = Section.batch_boolean([fill, *near], INTERSECT) if near else fill
        solid = fill - core
        if not solid.is_empty():
            solid = solid.offset(-OPEN_MM, MITER).offset(OPEN_MM, MITER)
    over: list[Bridge] = []
    for bridge in bridges:
        spanned = bridge.region.offset(width_mm, MITER)
        laid = spanned ^ fill
        if not laid.is_empty():
            over.append(replace(bridge, region=laid))
            core, solid = core - spanned, solid - spanned
    return Regions(contours=inset.lines, solid=solid, infill=core, bridges=tuple(over), narrow_mm2=inset.narrow_mm2)
