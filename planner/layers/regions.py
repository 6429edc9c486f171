"""What is laid where in a layer: contours along the outline, solid fill near top and bottom, infill elsewhere."""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d

from planner.layers.bead import pitch_mm
from planner.layers.section import Section

MITER = manifold3d.JoinType.Miter
INTERSECT = manifold3d.OpType.Intersect
OPEN_MM = 0.05
"""Slivers of fill thinner than a tenth of a line are not laid."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Regions:
    """Of one layer: centre lines of the contours, outer first, and the areas of both fills."""

    contours: tuple[Section, ...]
    solid: Section
    infill: Section
    narrow_mm2: float
    """Area too narrow for a contour or for fill, laid as single lines along it."""


def insets(section: Section, width_mm: float, height_mm: float, contours_n: int) -> tuple[tuple[Section, ...], Section]:
    """Return the centre lines of the contours and the area left for filling.

    The outer bead touches the outline; neighbours lie a pitch apart; the fill begins half a pitch inside.
    """
    pitch = pitch_mm(width_mm, height_mm)
    lines = []
    for k in range(contours_n):
        line = section.offset(-(width_mm / 2 + k * pitch), MITER)
        if line.is_empty():
            break
        lines.append(line)
    if not contours_n:
        return (), section.offset(-width_mm / 2, MITER)
    return tuple(lines), section.offset(-(width_mm / 2 + (contours_n - 0.5) * pitch), MITER)


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
    fill: Section,
    contours: tuple[Section, ...],
    solid_n: tuple[int, int],
    narrow_mm2: float,
) -> Regions:
    """Part the fill of a layer: infill where matter lies on all of the layers above and below, else solid.

    ``solid_n`` are the numbers of solid layers at the bottom and the top.
    """
    below, above = index - solid_n[0], index + solid_n[1]
    if below < 0 or above >= len(sections):
        return Regions(contours=contours, solid=fill, infill=Section(), narrow_mm2=narrow_mm2)
    near = [sections[k] for k in range(below, above + 1) if k != index]
    core = Section.batch_boolean([fill, *near], INTERSECT) if near else fill
    solid = fill - core
    if not solid.is_empty():
        solid = solid.offset(-OPEN_MM, MITER).offset(OPEN_MM, MITER)
    return Regions(contours=contours, solid=solid, infill=core, narrow_mm2=narrow_mm2)
