"""The shape of a part as a coarse raster of its lines would show it: its shadow and sections at some heights."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
import shapely.affinity
from numpy.typing import NDArray

from planner.gcode.matching.islands import closing_mm
from planner.gcode.matching.line_raster import CELL_MM
from planner.layers import Section, shape_of
from planner.mesh import Solid

Floats = NDArray[np.float64]

SUPPORT_MM = 1.0
"""Support may stand this far outside the shadow of what it carries."""
TOUCHED_MM = 0.3
"""A raster cell is set when a line touches it: regions look larger by about this (half a cell's breadth)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PartShape:
    """Sections of a part about the middle of its shadow, which lies at ``middle_mm`` in the part's own frame.

    ``allowed`` are the regions where lines may lie at each section: the section itself, and where the part stands on
    support all that its shadow covers.
    """

    sections: tuple[shapely.Geometry, ...]
    allowed: tuple[shapely.Geometry, ...]
    shadow: shapely.Geometry
    middle_mm: Floats


def long_of(points: Floats) -> float:
    """Return how much longer than broad a cloud of points is: the root of the ratio of its second moments."""
    least, most = np.linalg.eigvalsh(np.cov(points.T))
    return float(np.sqrt(most / max(least, 1e-9)))


def _grid(section: shapely.Geometry) -> Floats:
    """Return points on a grid within a region."""
    x0, y0, x1, y1 = section.bounds
    x, y = np.meshgrid(np.linspace(x0, x1, 60), np.linspace(y0, y1, 60))
    inside = shapely.contains_xy(section, x.ravel(), y.ravel())
    return np.column_stack([x.ravel()[inside], y.ravel()[inside]])


def _filled(shape: shapely.Geometry) -> shapely.Geometry:
    """Return a shape without its holes."""
    return shapely.union_all(
        [shapely.Polygon(piece.exterior) for piece in shapely.get_parts(shape) if piece.area > 0.0]
    )


def seen(section: Section, gap_mm: float, width_mm: float) -> shapely.Geometry:
    """Return a section as seen on the raster: by centre lines, gaps closed, all holes for an infinite gap."""
    closing = closing_mm(gap_mm) if np.isfinite(gap_mm) else CELL_MM
    grown = shape_of(section).buffer(TOUCHED_MM - width_mm / 2 + closing, quad_segs=4)
    shape = grown.buffer(-closing, quad_segs=4)
    return shape if np.isfinite(gap_mm) else _filled(shape)


def shadow_of(solid: Solid, span_mm: tuple[float, float], *, gap_mm: float, width_mm: float) -> shapely.Geometry | None:
    """Return the shadow of what of a part lies within a span of heights, as seen; None for nothing."""
    body = solid.manifold
    assert body is not None
    if span_mm[0] > 0.0 or span_mm[1] < solid.size_mm[2]:
        body = body.trim_by_plane((0, 0, 1), span_mm[0]).trim_by_plane((0, 0, -1), -span_mm[1])
    shadow = seen(body.project(), gap_mm, width_mm)
    return shadow if shadow.area > 0.0 and len(_grid(shadow)) >= 3 else None


def shadow_long(shadow: shapely.Geometry) -> float:
    """Return how much longer than broad a shadow is."""
    return long_of(_grid(shadow))


def part_shape(
    solid: Solid,
    heights_mm: Sequence[float],
    span_mm: tuple[float, float],
    *,
    support: bool,
    gap_mm: float,
    width_mm: float,
) -> PartShape | None:
    """Return a part's sections at heights, and the shadow of what lies within a span of heights; None for nothing."""
    shadow = shadow_of(solid, span_mm, gap_mm=gap_mm, width_mm=width_mm)
    body = solid.manifold
    if shadow is None or body is None:
        return None
    centre = shadow.centroid
    sections = [seen(body.slice(height), gap_mm, width_mm) for height in heights_mm]
    moved = [shapely.affinity.translate(one, -centre.x, -centre.y) for one in (*sections, shadow)]
    return PartShape(
        sections=tuple(moved[:-1]),
        allowed=(moved[-1].buffer(SUPPORT_MM),) * len(sections) if support else tuple(moved[:-1]),
        shadow=moved[-1],
        middle_mm=np.array([centre.x, centre.y]),
    )
