"""Support: what hangs over air more than the material carries, down to the bed or to the part below."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import shapely

from planner.layers.section import Section, rings_of

ROUND = manifold3d.JoinType.Round
BRIDGE_MM = 6.0
"""Spans up to this are bridged: between 5 mm (from memory) and 10 mm without sag (I. Aziz, design table)."""
BRIDGE_SHARE = 0.55
"""An overhang that rests on matter along more than this share of its rim is a bridge, not a ledge."""
LEDGE_MM = 1.0
"""A free ledge up to this prints (0.5 to 1.5 mm: Mazlan et al. 2020, abstract)."""
SLOPE_MM = 2.0
"""A slope may hang this far beyond what its lean allows before it sags: the roofs of lying bores up to about 9 mm
stay free of support. Common practice, no source."""
SIMPLIFY_MM = 0.02
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
    overs = _overhangs(sections, reach)
    found = [Section()] * len(sections)
    hanging = Section()
    for index in range(len(sections) - 2, -1, -1):
        if hanging.is_empty() and overs[index + 1].is_empty():
            continue
        hanging = ((hanging + overs[index + 1]) - sections[index].offset(GAP_MM, ROUND)).simplify(SIMPLIFY_MM)
        found[index] = hanging
    return found


def _overhangs(sections: list[Section], reach_mm: float) -> list[Section]:
    """Return what each layer lays over air beyond what prints by itself.

    From the bed upward the outline that is held is carried on, and grows by the reach a layer: so a slope that
    leans a little too far adds up until its edge hangs too far. What is then supported or bridged is held again.
    """
    found = [Section()] * len(sections)
    held = sections[0] if sections else Section()
    for index in range(1, len(sections)):
        below, above = sections[index - 1], sections[index]
        loose = above - held.offset(reach_mm + 1e-3, ROUND, 2.0, 16)
        if float(loose.area()) < 0.05:
            held = above
            continue
        flat = _opened(above - below.offset(reach_mm + 1e-3, ROUND, 2.0, 16), LEDGE_MM)
        hanging = flat + _opened(loose, SLOPE_MM)
        if hanging.is_empty():
            held = (above - loose).simplify(SIMPLIFY_MM)
            continue
        found[index] = _without_bridges(hanging, below, reach_mm)
        held = above
    return found


def _opened(region: Section, width_mm: float) -> Section:
    """Return a region without its places narrower than a width."""
    if region.is_empty():
        return region
    return region.offset(-width_mm / 2, ROUND).offset(width_mm / 2, ROUND)


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
