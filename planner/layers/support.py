"""Support: what hangs over air more than the material carries, down to the bed or to the part below."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import shapely

from planner.layers.section import Section, rings_of

ROUND = manifold3d.JoinType.Round
BRIDGE_MM = 5.0
"""Spans up to this are bridged; from memory, on the careful side (10 mm without sag: I. Aziz, design table)."""
BRIDGE_SHARE = 0.55
"""An overhang that rests on matter along more than this share of its rim is a bridge, not a ledge."""
LEDGE_MM = 1.0
"""A free ledge up to this prints (0.5 to 1.5 mm: Mazlan et al. 2020, abstract)."""
GAP_MM = 0.3
"""Kept clear between support and walls; common practice, no source."""
SHARE = 0.15
"""Share of the support's volume that is laid; common practice, no source."""


def supports_of(sections: list[Section], layer_mm: float, lean_deg: float) -> list[Section]:
    """Return the support region of every layer, from the top down; empty where none is needed.

    ``lean_deg`` is the steepest lean from vertical that prints by itself: each layer may reach
    h tan(lean) over the one below (geometry).
    """
    reach = layer_mm * math.tan(math.radians(min(lean_deg, 89.0)))
    found = [Section()] * len(sections)
    hanging = Section()
    for index in range(len(sections) - 2, -1, -1):
        below, above = sections[index], sections[index + 1]
        over = above - below.offset(reach + 1e-3, ROUND)
        if not over.is_empty():
            over = over.offset(-LEDGE_MM / 2, ROUND).offset(LEDGE_MM / 2, ROUND)
        if not over.is_empty():
            over = _without_bridges(over, below, reach)
        if hanging.is_empty() and over.is_empty():
            continue
        hanging = (hanging + over) - below.offset(GAP_MM, ROUND)
        found[index] = hanging
    return found


def _without_bridges(over: Section, below: Section, reach_mm: float) -> Section:
    """Leave out the overhangs that span from matter to matter."""
    ground = shapely.union_all(
        [shapely.Polygon(ring) for ring in rings_of(below.offset(reach_mm + LEDGE_MM / 2 + 0.1))]
    )
    kept = []
    for piece in over.decompose():
        rings = rings_of(piece)
        shape = shapely.Polygon(rings[0], rings[1:]).buffer(0)
        span = _span(shape)
        rests = shape.exterior.intersection(ground).length if isinstance(shape, shapely.Polygon) else 0.0
        if not (span <= BRIDGE_MM and rests > BRIDGE_SHARE * shape.length):
            kept.append(piece)
    return Section.batch_boolean(kept, manifold3d.OpType.Add) if kept else Section()


def _span(shape: shapely.Geometry) -> float:
    """Return the shorter side of the smallest rectangle around a shape."""
    box = shapely.minimum_rotated_rectangle(shape)
    if not isinstance(box, shapely.Polygon):
        return 0.0
    ring = np.asarray(box.exterior.coords)
    return float(np.linalg.norm(np.diff(ring[:3], axis=0), axis=1).min())


def support_mm3(supports: list[Section], layer_mm: float) -> float:
    """Return the volume of the supported space, before the share that is laid."""
    return float(np.sum([section.area() for section in supports if not section.is_empty()])) * layer_mm
