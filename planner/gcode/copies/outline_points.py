"""Points along the outlines of a section, with their normals, and how far each moves within a layer."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.gcode.copies.piece import Sections
from planner.layers import Section

Floats = NDArray[np.float64]

STEP_MM, CORNER_MM, LEAST_MM = 0.5, 0.3, 0.02
"""Outlines are looked at this often, not this near to a corner, and not on edges shorter than the last."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OutlinePoints:
    """Points (n, 2), their normals outward (n, 2), and how far the outline moves there within the layer (n,)."""

    points_mm: Floats
    normals: Floats
    moves_mm: Floats


def outline_at(sections: Sections, heights_mm: tuple[float, float, float]) -> OutlinePoints:
    """Return the points of a layer's middle section; ``heights_mm`` are its bottom, middle and top. Made once."""
    low, middle, high = (round(z, 3) for z in heights_mm)
    key = low, middle, high
    found = sections.outlines.get(key)
    if not isinstance(found, OutlinePoints):
        points, normals = _points(sections.at(middle))
        moves = np.maximum(_away(points, sections.at(low)), _away(points, sections.at(high)))
        found = sections.outlines[key] = OutlinePoints(points_mm=points, normals=normals, moves_mm=moves)
    return found


def _points(section: Section) -> tuple[Floats, Floats]:
    """Return points along the outlines of a section and their normals outward; solid lies on a ring's left."""
    rings = [np.asarray(ring, dtype=np.float64) for ring in section.to_polygons()]
    start = np.concatenate(rings)
    along = np.concatenate([np.roll(ring, -1, axis=0) for ring in rings]) - start
    length = np.hypot(along[:, 0], along[:, 1])
    good = length >= LEAST_MM
    start, along, length = start[good], along[good], length[good]
    free = np.where(length > 4 * CORNER_MM, length - 2 * CORNER_MM, 0.0)
    n = (free / STEP_MM).astype(np.int64) + 1
    edge = np.repeat(np.arange(len(n)), n)
    place = np.arange(len(edge)) - np.repeat(np.cumsum(n) - n, n)
    share = 0.5 + (place - (n[edge] - 1) / 2) * free[edge] / n[edge] / length[edge]
    outward = np.column_stack([along[:, 1], -along[:, 0]]) / length[:, None]
    return start[edge] + share[:, None] * along[edge], outward[edge]


def _away(points: Floats, section: Section) -> Floats:
    """Return how far points lie from the outlines of a section; infinity where it has none."""
    rings = [np.asarray(ring) for ring in section.to_polygons()]
    if not rings:
        return np.full(len(points), np.inf)
    lines = shapely.linestrings(np.concatenate([np.stack([ring, np.roll(ring, -1, axis=0)], axis=1) for ring in rings]))
    _, away = shapely.STRtree(lines).query_nearest(shapely.points(points), return_distance=True, all_matches=False)
    found: Floats = away
    return found
