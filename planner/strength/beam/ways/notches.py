"""What notches may raise the stress of a cut to: bores, fillets and sharp inner corners, which sections do not see.

Neuber's factors (1937, Kerbspannungslehre; from memory): at a shallow notch 1 + 2 √(t / r) with its depth t and the
radius r of its root (Inglis 1913), which is Kirsch's 3 at a bore; at a deep one that of the hyperbola that leaves a
section of half its depth a, pulled; both together by the root of the sum of squares. A step has material on one side
alone and raises stress less: three quarters of what is over 1, by Peterson's charts of shoulders (from memory). The
root counts as blunter by a line's width, over which stress is averaged. They bound the stress and do not tell it, as
it depends on which way the section bends: this is a doubt, which finite elements settle.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import manifold3d
import numpy as np
import shapely
from numpy.typing import NDArray

from planner.layers import shape_of
from planner.mesh import Solid
from planner.strength.beam.cut_forces import Cut

Floats = NDArray[np.float64]
SHARP_DEG = 35.0
"""From so sharp a turn an inner edge is a corner, and no facet of a curve."""
LEAST_DEG = 1.0
ACROSS = 0.7
"""An edge counts that runs across the way by this cosine at least."""
BLUNT_MM = 0.45
"""A printed line's width, common practice."""
NEAR_MM = 0.5
"""So near to an outline an edge is part of it."""
STEP_SHARE = 0.75
BOTH_SHARE = 0.2
"""A side less deep by this share is a step's open one; no source."""
EDGES_N = 8
"""So many corners and so many curves of a cut are looked at: round a shaft they miss 8 % at most, by the cosine."""
LEAST_OUT = 0.3
"""A notch opens across the way: the sum of its two unit normals has so much in the cut's plane; no source."""
RATIO_MOST = 4.0
"""No notch is taken to raise stress more often: Kirsch's 3 and some more for corners; no source."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class InnerEdges:
    """Edges at which the surface turns inward: ends (n, 2, 3), ways out (n, 3), and radii of their curves (n,)."""

    ends_mm: Floats
    outward: Floats
    radius_mm: Floats


@lru_cache(maxsize=64)
def inner_edges(solid: Solid) -> InnerEdges:
    """Return the inner edges of a solid; a corner has no radius."""
    corners, faces = solid.corners_mm, solid.faces
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    double_mm2 = np.linalg.norm(normals, axis=1)
    normals = normals / np.maximum(double_mm2, 1e-12)[:, None]
    ends = np.sort(faces[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    face, beyond = np.repeat(np.arange(len(faces)), 3), faces[:, [2, 0, 1]].ravel()
    order = np.lexsort((ends[:, 1], ends[:, 0]))
    twin = np.flatnonzero((ends[order][1:] == ends[order][:-1]).all(axis=1))
    one, other = order[twin], order[twin + 1]
    points = solid.vertices_mm[ends[one]]
    above = ((solid.vertices_mm[beyond[other]] - points[:, 0]) * normals[face[one]]).sum(axis=1)
    turn = np.arccos(np.clip((normals[face[one]] * normals[face[other]]).sum(axis=1), -1.0, 1.0))
    long = np.linalg.norm(points[:, 1] - points[:, 0], axis=1)
    inner = (above > 0.0) & (turn > math.radians(LEAST_DEG)) & (long > 1e-6)
    wide = np.minimum(double_mm2[face[one]], double_mm2[face[other]]) / np.maximum(long, 1e-6)
    return InnerEdges(
        ends_mm=points[inner],
        outward=(normals[face[one]] + normals[face[other]])[inner],
        radius_mm=np.where(turn > math.radians(SHARP_DEG), 0.0, wide / np.maximum(turn, 1e-6))[inner],
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Notch:
    """Places (n, 2) of a cut's plane along a notch's root, and how many times their stress it may raise.

    ``out`` is the way (2,) from its root into the void, and ``radius_mm`` that of its curve, 0 of a corner.
    """

    places_mm: Floats
    ratio: float
    out: Floats
    radius_mm: float


def notches_of(solid: Solid, cut: Cut, shape: shapely.Geometry, near_mm: float, *, curved: bool) -> list[Notch]:
    """Return the notches of a cut: roots no farther off its plane than ``near_mm``.

    The inside of a ``curved`` limb is no notch: its stress is told as a curve's. Corners in it are.
    """
    edges, normal = inner_edges(solid), cut.axes[2]
    along = (edges.ends_mm - cut.at_mm) @ normal
    span = edges.ends_mm[:, 1] - edges.ends_mm[:, 0]
    lies = np.linalg.norm(np.cross(span, normal), axis=1) > ACROSS * np.linalg.norm(span, axis=1)
    close = (along.min(axis=1) < near_mm) & (along.max(axis=1) > -near_mm)
    rows, body = np.flatnonzero(lies & close), solid.manifold
    if body is None or not len(rows):
        return []
    flat = (edges.ends_mm[rows] - cut.at_mm) @ cut.axes[:2].T
    middles, out = flat.mean(axis=1), edges.outward[rows] @ cut.axes[:2].T
    long, radius_mm = np.linalg.norm(out, axis=1), edges.radius_mm[rows]
    told = (long > LEAST_OUT) & (shapely.distance(shape.boundary, shapely.points(middles)) < NEAR_MM)
    sharp = radius_mm == 0.0
    found = []
    for each in (told & sharp, told & ~sharp & (not curved)):
        for n in far_apart(middles, np.flatnonzero(each)):
            off_mm = float(along[rows[n]].mean())
            beside_mm = 2.0 * float(radius_mm[n]) + BLUNT_MM
            sides = [section_at(body, cut, off_mm + side * beside_mm) for side in (-1.0, 1.0)]
            ratio = notch_ratio(shape, sides, middles[n], out[n] / long[n], float(radius_mm[n]))
            places = np.vstack([flat[n], middles[n]])
            found.append(Notch(places_mm=places, ratio=ratio, out=out[n] / long[n], radius_mm=float(radius_mm[n])))
    return found


def far_apart(points_mm: Floats, rows: NDArray[np.int64]) -> list[int]:
    """Return at most some of the rows of points, those farthest apart: round a shoulder they lie all about it."""
    if not len(rows):
        return []
    taken = [int(rows[0])]
    gaps = np.linalg.norm(points_mm[rows] - points_mm[taken[0]], axis=1)
    while len(taken) < EDGES_N and gaps.max() > NEAR_MM:
        taken.append(int(rows[gaps.argmax()]))
        gaps = np.minimum(gaps, np.linalg.norm(points_mm[rows] - points_mm[taken[-1]], axis=1))
    return taken


def notch_ratio(
    shape: shapely.Geometry, sides: Sequence[shapely.Geometry], root: Floats, out: Floats, radius_mm: float
) -> float:
    """Return how many times a notch raises stress, from its own section and those on both sides of it.

    ``out`` is the way from its root into the void, in the cut's plane.
    """
    deep = [_reach_mm(one.difference(shape), root, out) for one in sides]
    deep_mm = max(deep)
    if deep_mm <= 0.0:
        return 1.0
    blunt_mm, two_sided = radius_mm + BLUNT_MM, min(deep) > BOTH_SHARE * deep_mm
    if two_sided and shape.distance(shapely.Point(root + out * deep_mm)) < NEAR_MM:
        return min(shallow(deep_mm / 2.0, blunt_mm), RATIO_MOST)  # it goes on beyond: a bore
    raised = neuber(deep_mm, _reach_mm(shape, root, -out) / 2.0, blunt_mm) - 1.0
    return min(1.0 + raised * (1.0 if two_sided else STEP_SHARE), RATIO_MOST)


def section_at(body: manifold3d.Manifold, cut: Cut, off_mm: float) -> shapely.Geometry:
    """Return the section of a body so far beyond a cut, in its axes."""
    turned = body.transform(np.column_stack([cut.axes, -cut.axes @ cut.at_mm]))
    return shape_of(turned.slice(off_mm))


def _reach_mm(shape: shapely.Geometry, root: Floats, way: Floats) -> float:
    """Return how far a shape reaches along a way from a place, up to its first gap."""
    line = shapely.LineString([root + 2e-2 * way, root + 1e3 * way])
    inside = shape.intersection(line)
    parts = [one for one in shapely.get_parts(inside) if one.distance(shapely.Point(line.coords[0])) < NEAR_MM]
    return max((float(one.length) for one in parts), default=0.0)


def shallow(deep_mm: float, radius_mm: float) -> float:
    """Return 1 + 2 √(t / r): Inglis' ellipse, Kirsch's bore.

    >>> shallow(2.0, 2.0)
    3.0
    """
    return 1.0 + 2.0 * math.sqrt(deep_mm / radius_mm)


def neuber(deep_mm: float, half_mm: float, radius_mm: float) -> float:
    """Return Neuber's factor of a pulled bar with a notch on both sides that leaves a section of twice ``half_mm``.

    >>> round(neuber(5.0, 10.0, 1.0), 1)  # Peterson's chart has about 3.4 (from memory)
    3.5
    """
    over = half_mm / radius_mm
    if deep_mm <= 0.0 or over <= 0.0:
        return 1.0
    root = math.sqrt(over)
    deep = 2.0 * (over + 1.0) * root / ((over + 1.0) * math.atan(root) + root)
    one, other = shallow(deep_mm, radius_mm) - 1.0, max(deep - 1.0, 0.0)
    return 1.0 + one * other / math.hypot(one, other) if other > 0.0 else 1.0
