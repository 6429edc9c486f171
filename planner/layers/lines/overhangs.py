"""What hangs over air: bridges that span from one support to another, and what must be held up."""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d
import numpy as np
import shapely

from planner.layers.lines.fill import fill_lines
from planner.layers.lines.section import Section, rings_of, shape_of

MITER, ROUND = manifold3d.JoinType.Miter, manifold3d.JoinType.Round
BRIDGE_MM = 6.0
"""Spans up to this are bridged: common practice, no source, lies between 5 and 10 mm."""
BRIDGE_SHARE, TRIED_MM = 0.9, 0.3
"""Where this share of the lines across an overhang rest on plastic at both ends, it is a bridge, not a ledge; lines are
tried at this pitch."""
LEDGE_MM = 1.0
"""A free ledge up to this prints (0.5 to 1.5 mm: Mazlan et al. 2020, abstract)."""
REST_MM = 0.15
"""A rim this near to where it may reach rests there: the openings round corners by as much."""
SLOPE_MM = 2.0
"""A slope may hang this far beyond what its lean allows before it sags: the roofs of horizontal bores up to 13 mm
stay free of support. Common practice, no source."""
SIMPLIFY_MM = 0.02


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bridge:
    """A region over air that rests at both ends: lines at ``angle_deg``, the longest ``span_mm``."""

    region: Section
    angle_deg: float
    span_mm: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Hanging:
    """Of every layer, from the bed up: what hangs and must be held, and what bridges."""

    held_up: list[Section]
    bridges: list[tuple[Bridge, ...]]


def hanging_of(sections: list[Section], reach_mm: float) -> Hanging:
    """Return what each layer lays over air beyond what prints by itself; each may reach ``reach_mm`` over the last.

    From the bed upward the outline that is held is carried on, and grows by the reach a layer: so a slope that
    leans a little too far adds up until its edge hangs too far. What is then supported or bridged is held again.
    """
    found = Hanging(held_up=[Section()] * len(sections), bridges=[()] * len(sections))
    held = sections[0] if sections else Section()
    for index in range(1, len(sections)):
        below, above = sections[index - 1], sections[index]
        loose = above - held.offset(reach_mm + 1e-3, ROUND, 2.0, 16)
        if float(loose.area()) < 0.05:
            held = above
            continue
        flat = _opened(above - below.offset(reach_mm + 1e-3, ROUND, 2.0, 16), LEDGE_MM)
        slope = _opened(loose, SLOPE_MM)
        over = flat + slope
        if over.is_empty():
            held = (above - loose).simplify(SIMPLIFY_MM)
            continue
        kept, found.bridges[index] = _parted(over, slope, (below, held), reach_mm)
        found.held_up[index] += kept
        if not slope.is_empty():
            _hold_slope(sections, index, kept ^ slope, found.held_up)
        held = above
    return found


def _hold_slope(sections: list[Section], index: int, strip: Section, held_up: list[Section]) -> None:
    """Hold up the lower layers of a slope too, whose edge hangs too far at a layer: it leans all the way there."""
    for k in range(index - 1, 0, -1):
        band = (sections[k] - sections[k - 1]) ^ strip
        if float(band.area()) < 1e-3:
            return
        held_up[k] += band


def _opened(region: Section, width_mm: float) -> Section:
    """Return a region without its places narrower than a width; never more than the region."""
    if region.is_empty():
        return region
    wide = region.offset(-width_mm / 2, MITER).offset(width_mm / 2, MITER)  # keeps the corners of a bridge
    return wide ^ region  # where a short edge vanished, its neighbours now meet beyond it


def _parted(
    over: Section, slope: Section, grounds: tuple[Section, Section], reach_mm: float
) -> tuple[Section, tuple[Bridge, ...]]:
    """Split overhangs into what must be held up and what bridges.

    ``grounds`` are the layer below and what of it is held: a slope that hangs too far lies on plastic that
    hangs itself, so only what is held counts for it.
    """
    rests_on = [shape_of(ground.offset(reach_mm + REST_MM, ROUND, 2.0, 16)) for ground in grounds]
    kept, bridges = [], []
    for piece in over.decompose():
        sloped = not slope.is_empty() and not (piece ^ slope).is_empty()
        bridge = _bridge(piece, rests_on[1 if sloped else 0], reach_mm)
        if bridge is None:
            kept.append(piece)
        else:
            bridges.append(bridge)
    return Section.batch_boolean(kept, manifold3d.OpType.Add) if kept else Section(), tuple(bridges)


def _bridge(piece: Section, ground: shapely.Geometry, reach_mm: float) -> Bridge | None:
    """Return a region as a bridge, laid along the shorter of the ways in which its lines rest at both ends, or None."""
    box = shapely.minimum_rotated_rectangle(shape_of(piece))
    if not isinstance(box, shapely.Polygon):
        return None
    sides = np.diff(np.asarray(box.exterior.coords)[:3], axis=0)
    found: list[Bridge] = []
    for x, y in sides:
        angle = float(np.degrees(np.arctan2(y, x)))
        lines = fill_lines(rings_of(piece), TRIED_MM, angle)
        if not len(lines):
            continue
        rests = shapely.contains_xy(ground, lines.reshape(-1, 2)).reshape(-1, 2).all(axis=1)
        span = float(np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1).max()) + 2 * reach_mm
        if span <= BRIDGE_MM + 2 * REST_MM and rests.mean() >= BRIDGE_SHARE:
            found.append(Bridge(region=piece, angle_deg=angle, span_mm=span))
    return min(found, key=lambda bridge: bridge.span_mm, default=None)
