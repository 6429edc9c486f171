"""Openings plugged and cut again in a solid at scale: round, hexagonal, curved; and bosses round them."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from manifold3d import Manifold, Mesh64
from numpy.typing import NDArray

from planner.survey import Bore, Channel, across

Floats = NDArray[np.float64]

FACETS_N, HEXAGON = 64, 6
OVERLAP_MM = 0.02
"""A plug reaches this far into the wall, so that it becomes one with it."""
BULGE_MM = 0.1
"""This far below its rims it does."""
WALL_SHARE = 0.005
"""Corners of a bore's wall lie within this share of its radius, and 0.01 mm, of the circle."""
PAST_MM = 0.05
"""A through opening is cut this far beyond both mouths."""
FREE_SHARE = 0.02
"""Just beyond a free mouth no more than this is matter: a step or a drill's point is no mouth."""
TOUCH_MM = 1e-3
"""Matter this near to the end of a bore begins there."""
RING_MM, WHOLE_SHARE = 0.15, 0.95
"""Where less than 95 % of a thin ring about the bore is matter, it opens sideways, and what is added stands out."""
LEAST_SHARE = 0.5  # of that ring must be left beside the bores that cross it
SAGITTA_MOST_MM = 0.15
"""So far may a mouth's rim lie off a plane: a plug then stands out by less than a layer or two."""


def drawn_mm(inside_mm: float, sides: int = FACETS_N) -> float:
    """Return the diameter through the corners of a regular polygon, from that between its flats: d = i / cos(pi/n)."""
    return inside_mm / math.cos(math.pi / sides)


def round_cut(body: Manifold, bore: Bore, target_mm: float, s: float) -> Manifold:
    """Return the body with one bore cut to a new drawn diameter."""
    buried, cut = round_cutter(body, bore, target_mm, s)
    return body + buried - cut


def round_cutter(
    body: Manifold, bore: Bore, target_mm: float, factor: float, crossing: Sequence[tuple[Bore, float]] = ()
) -> tuple[Manifold, Manifold]:
    """Return what buries the floor of a bore, and what cuts it to a new drawn diameter; ``body`` has it as drawn.

    A bore that ends in one of ``crossing``, filled and cut to new diameters too, is cut on until it meets the new one.
    """
    buried, low, high = _floored(body, bore, target_mm, factor)
    for other, wide_mm in crossing:
        low, high = _reaching(bore, (low, high), other, (target_mm, wide_mm), factor)
    return buried, cylinder(bore, target_mm, high - low, factor, (low + high) / 2)


def plug(body: Manifold, bore: Bore, s: float, crossing: Sequence[Bore] = ()) -> Manifold | None:
    """Return the matter that fills a bore up to its mouths, square or oblique, and across the bores that cross it.

    None where a mouth is too curved, or where the bore opens into another hollow on its way.

    It is the hull of the wall's own corners: exact for flat mouths; into a hollow it stands out by the rim's
    sagitta, which is bounded, but for a mouth in the wall of one of ``crossing``.
    """
    frame, radius = _frame(bore, s), bore.drawn_diameter_mm * s / 2
    flat, along = _wall(body, bore, s, WALL_SHARE)
    slopes = []
    for rim in (_rim(flat, along), _rim(flat, -along)):
        slope, off_mm = _plane(flat[rim], along[rim])
        mouth = np.column_stack([flat[rim], along[rim]]) @ frame[:, :3].T + frame[:, 3]
        if len(rim) < 6 or (off_mm > SAGITTA_MOST_MM and not any(_in_wall(mouth, other, s) for other in crossing)):
            return None
        slopes.append(slope)
    lean = np.where((along < 0)[:, None], *slopes)  # what grows outward follows its own mouth's slope
    rise = (lean * flat).sum(axis=1) / radius
    inner, ring = (_hull(frame, flat * (1 + g / radius), along + rise * g) for g in (OVERLAP_MM, RING_MM))
    wall = ring - inner
    whole_mm3 = wall.volume()
    for other in crossing:
        wall -= void(body, other, s)
    if (wall ^ body).volume() < WHOLE_SHARE * wall.volume() or wall.volume() < LEAST_SHARE * whole_mm3:
        return None
    # Bulging below its rims only, it leaves no step on the faces round them.
    below = along - np.sign(along) * min(BULGE_MM, bore.depth_mm * s / 4) + rise * OVERLAP_MM
    return _hull(frame, np.vstack([flat, flat * (1 + OVERLAP_MM / radius)]), np.concatenate([along, below]))


def shielded(body: Manifold, bore: Bore, other: Bore, factor: float) -> bool:
    """Return whether matter stands all round a bore wherever it runs within another, as in a hub within a recess."""
    wide, depth = bore.drawn_diameter_mm * factor, bore.depth_mm * factor
    ring = cylinder(bore, wide + 2 * RING_MM, depth, factor) - cylinder(bore, wide + 2 * OVERLAP_MM, depth, factor)
    ring ^= cylinder(other, other.drawn_diameter_mm * factor, other.depth_mm * factor, factor)
    return not ring.is_empty() and bool((ring ^ body).volume() >= WHOLE_SHARE * ring.volume())


def void(body: Manifold, bore: Bore, factor: float, into: Bore | None = None, wider_mm: float = 0.0) -> Manifold:
    """Return what a bore leaves free: the hull of its wall's corners, as far as the axis of a bore that it ends in."""
    flat, along = _wall(body, bore, factor, WALL_SHARE)
    flat = flat * (1.0 + wider_mm / (bore.drawn_diameter_mm * factor))
    met = None if into is None else _met(bore, into, factor)
    if met is not None:
        flat, along = np.vstack([flat, flat]), np.concatenate([along, np.full(len(along), met[0])])
    return _hull(_frame(bore, factor), flat, along)


def _wall(body: Manifold, bore: Bore, s: float, slack_share: float) -> tuple[Floats, Floats]:
    """Return the corners of a bore's wall, across its axis (n, 2) and along it (n,), from its middle."""
    frame, radius = _frame(bore, s), bore.drawn_diameter_mm * s / 2
    away = np.asarray(body.to_mesh64().vert_properties)[:, :3] - frame[:, 3]
    flat, along = away @ frame[:, :2], away @ frame[:, 2]
    off = np.abs(np.hypot(flat[:, 0], flat[:, 1]) - radius)
    on = (off < 0.01 + slack_share * radius) & (np.abs(along) < bore.depth_mm * s / 2 + 0.01)
    return flat[on], along[on]


def _hull(frame: Floats, flat: Floats, along: Floats) -> Manifold:
    """Return the hull of points about an axis."""
    return Manifold.hull_points(np.column_stack([flat, along]) @ frame[:, :3].T + frame[:, 3])


def _rim(flat: Floats, along: Floats) -> NDArray[np.int64]:
    """Return the corners that lie lowest, one in each fifteenth degree about the axis."""
    # no round number of degrees lies between two sectors, where rounding would part the corners of one generator
    sector = ((np.degrees(np.arctan2(flat[:, 1], flat[:, 0])) + 367.43) % 360.0 // 15.0).astype(np.int64)
    order = np.lexsort((along, sector))
    lowest: NDArray[np.int64] = order[np.diff(sector[order], prepend=-999) != 0]
    return lowest


def _plane(flat: Floats, along: Floats) -> tuple[Floats, float]:
    """Return the slope (2,) of the plane through the corners of a rim, and how far they lie off it."""
    matrix = np.column_stack([flat, np.ones(len(flat))])
    plane = np.linalg.lstsq(matrix, along, rcond=None)[0]
    slope: Floats = plane[:2].astype(np.float64)
    return slope, float(np.abs(matrix @ plane - along).max(initial=0.0))


def hexagon_cut(body: Manifold, pocket: Bore, target_mm: float, s: float) -> Manifold:
    """Return the body with a nut's pocket widened to a diameter through the corners, its corners where they were."""
    frame = _frame(pocket, s)
    flat, _ = _wall(body, pocket, s, 0.01)
    sixfold = np.exp(6j * np.arctan2(flat[:, 1], flat[:, 0])).sum()  # six corners are one direction so
    buried, low, high = _floored(body, pocket, target_mm, s)
    upright = Manifold.cylinder(high - low, target_mm / 2, target_mm / 2, HEXAGON, center=True)
    turned = upright.translate((0, 0, (low + high) / 2)).rotate((0, 0, math.degrees(float(np.angle(sixfold))) / 6))
    return body + buried - turned.transform(np.ascontiguousarray(frame))


def channel_cut(body: Manifold, channel: Channel, target_mm: float, s: float) -> Manifold:
    """Return the body with a curved channel widened to a drawn diameter along its centre line."""
    line = np.array(channel.line_mm) * s
    first, last = line[0] - line[1], line[-1] - line[-2]
    out = target_mm / 2
    line = np.vstack(
        [line[0] + out * first / np.linalg.norm(first), line[1:-1], line[-1] + out * last / np.linalg.norm(last)]
    )
    way = np.gradient(line, axis=0)
    way /= np.linalg.norm(way, axis=1, keepdims=True)
    angles = np.arange(FACETS_N) * 2 * np.pi / FACETS_N
    rings, x = [], across(way[0])[0]
    for point, along in zip(line, way, strict=True):
        x = x - (x @ along) * along  # carried along without twist
        x /= np.linalg.norm(x)
        y = np.cross(along, x)
        rings.append(point + target_mm / 2 * (np.cos(angles)[:, None] * x + np.sin(angles)[:, None] * y))
    return body - _tube(np.vstack(rings))


def _tube(points: Floats) -> Manifold:
    """Return the tube whose skin runs over rings of ``FACETS_N`` points each, (rings * FACETS_N, 3), with flat ends.

    One skin, not a union of one piece a step: where pieces share a ring the union would leave flecks of no volume.
    """
    here = np.arange(len(points)).reshape(-1, FACETS_N)
    there = np.roll(here, -1, axis=1)
    low, lows, high, highs = here[:-1].ravel(), there[:-1].ravel(), here[1:].ravel(), there[1:].ravel()
    fan = np.arange(1, FACETS_N - 1)
    first = np.column_stack([np.zeros_like(fan), fan + 1, fan])
    last = first[:, ::-1] + len(points) - FACETS_N
    faces = np.vstack([np.column_stack([low, lows, highs]), np.column_stack([low, highs, high]), first, last])
    return Manifold(Mesh64(points, faces.astype(np.uint64)))


def along_of(piece: Manifold, frame: Floats) -> Floats:
    """Return how far the corners of a piece (n,) lie from a frame's origin along its third axis."""
    away: Floats = (np.asarray(piece.to_mesh64().vert_properties)[:, :3] - frame[:, 3]) @ frame[:, 2]
    return away


def boss(body: Manifold, bore: Bore, inside_mm: float, outside_mm: float, s: float) -> Manifold | None:
    """Return the ring to add round a bore; None where a mouth is oblique."""
    if not _square_mouths(body, bore, inside_mm, s):
        return None
    depth = bore.depth_mm * s
    return cylinder(bore, outside_mm, depth, s) - cylinder(bore, inside_mm, depth + 2 * PAST_MM, s)


def cylinder(bore: Bore, diameter_mm: float, depth_mm: float, s: float, middle_mm: float = 0.0) -> Manifold:
    """Return a cylinder along a bore's axis at scale, its middle so far from the bore's."""
    upright = Manifold.cylinder(depth_mm, diameter_mm / 2, diameter_mm / 2, FACETS_N, center=True)
    upright = upright.translate((0, 0, middle_mm))
    return upright.transform(np.ascontiguousarray(_frame(bore, s)))


def _floored(body: Manifold, bore: Bore, target_mm: float, s: float) -> tuple[Manifold, float, float]:
    """Return what buries a bore's floor, and the ends of the cut: past open mouths, to the floor else.

    Two floors at one height would leave slivers, so the old floor is buried first.
    """
    depth, buried = bore.depth_mm * s, Manifold()
    ends = [-depth / 2, depth / 2]
    for index, way in enumerate((-1.0, 1.0)):
        beyond = cylinder(bore, bore.diameter_mm * s / 2, PAST_MM, s, way * (depth + PAST_MM) / 2)
        if (beyond ^ body).volume() < beyond.volume() / 2:
            ends[index] += way * (PAST_MM + _mouth_mm(body, bore, target_mm, way, s))
        else:
            cap = min(depth / 4, 0.5) + OVERLAP_MM
            buried += cylinder(
                bore, bore.drawn_diameter_mm * s + 2 * OVERLAP_MM, cap, s, ends[index] - way * (cap / 2 - OVERLAP_MM)
            )
    return buried, ends[0], ends[1]


def _reaching(
    bore: Bore, ends: tuple[float, float], other: Bore, wide_mm: tuple[float, float], s: float
) -> tuple[float, float]:
    """Return the ends of a cut, moved on until they meet another bore that is narrower now than where the bore ended.

    ``wide_mm`` are the new diameters of both. A cylinder of radius r whose axis meets another's at an angle a is
    within that of radius R all round from sqrt(R^2 - r^2) / sin(a) - r / tan(a) before that axis (geometry).
    """
    met, radius, wide = _met(bore, other, s), wide_mm[0] / 2.0, wide_mm[1] / 2.0
    if met is None:
        return ends
    meets, sine = met
    lean = radius * math.sqrt(max(1.0 - sine * sine, 0.0))
    before = max(math.sqrt(max(wide * wide - radius * radius, 0.0)) - lean, 0.0) / sine
    end = meets - math.copysign(before, meets)
    return (min(ends[0], end), ends[1]) if meets < 0 else (ends[0], max(ends[1], end))


def _met(bore: Bore, other: Bore, factor: float) -> tuple[float, float] | None:
    """Return where along a bore, from its middle, the axis of one that it ends in lies, and the sine between the axes.

    None where it does not end in the other's wall.
    """
    axis, along = np.array(bore.axis), np.array(other.axis)
    away, cos = (np.array(other.centre_mm) - np.array(bore.centre_mm)) * factor, float(axis @ along)
    sine = math.sqrt(max(1.0 - cos * cos, 0.0))
    if sine < TOUCH_MM:
        return None
    meets = float(away @ axis - cos * (away @ along)) / (sine * sine)
    half, within = bore.depth_mm * factor / 2, other.drawn_diameter_mm * factor / 2 / sine
    return (meets, sine) if abs(half - abs(meets)) < within + PAST_MM else None


def _in_wall(points: Floats, bore: Bore, s: float) -> bool:
    """Return whether points (n, 3) lie on a bore's wall."""
    frame, radius = _frame(bore, s), bore.drawn_diameter_mm * s / 2
    away, slack = np.linalg.norm((points - frame[:, 3]) @ frame[:, :2], axis=1), 0.01 + WALL_SHARE * radius
    return bool((away < radius + slack).all() and (away > bore.diameter_mm * s / 2 - slack).all())


def _mouth_mm(body: Manifold, bore: Bore, target_mm: float, way: float, s: float) -> float:
    """Return how far beyond a bore's end a wider one has its rim where the mouth is slanted or curved.

    Cut no deeper than before, it would leave a flap there. Matter that goes on for more than a radius is no flap of
    the mouth, and what stands apart from the end, like the far wall of a tube, is not to be cut.
    """
    end, far = bore.depth_mm * s / 2, target_mm / 2
    mouth = cylinder(bore, bore.diameter_mm * s, PAST_MM, s, way * (end + PAST_MM / 2))
    if (mouth ^ body).volume() > FREE_SHARE * mouth.volume():
        return 0.0
    beyond = cylinder(bore, target_mm, far, s, way * (end + far / 2))
    frame = _frame(bore, s)
    flap, next_mm = 0.0, far
    for piece in (body ^ beyond).decompose():
        along = along_of(piece, frame) * way - end
        if along.min() > TOUCH_MM:
            next_mm = min(next_mm, float(along.min()))
        elif along.max() < far - TOUCH_MM:
            flap = max(flap, float(along.max()))
    return min(flap, max(next_mm / 2 - PAST_MM, 0.0)) if next_mm < far else flap


def _frame(bore: Bore, s: float) -> Floats:
    """Return two axes across a bore, its own, and its middle at scale, as the columns of a (3, 4) matrix."""
    axis = np.array(bore.axis)
    return np.column_stack([*across(axis), axis, np.array(bore.centre_mm) * s])


def _square_mouths(body: Manifold, bore: Bore, diameter_mm: float, s: float) -> bool:
    """Return whether matter stands all round a bore over its whole depth."""
    depth = bore.depth_mm * s
    inner = cylinder(bore, diameter_mm + 2 * OVERLAP_MM, depth, s)
    wall = cylinder(bore, diameter_mm + 2 * RING_MM, depth, s) - inner
    return bool((wall ^ body).volume() >= WHOLE_SHARE * wall.volume())
