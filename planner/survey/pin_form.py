"""Parts that are pins by form: a round shaft, bare or with a head, steps or a groove for a clip."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, QhullError
from scipy.spatial.distance import pdist

from planner.cache import kept, key_of
from planner.survey.survey import Survey

Floats = NDArray[np.float64]

SHAFTS_VERSION = 1
"""Raised whenever a result changes, so that kept ones are not trusted."""
SLENDER = 2.0
"""A pin is longer than this times the thickness of its shaft; common practice, no source."""
ROUND = 0.97
"""Least roundness of a section, 4 pi A / U^2: a regular polygon of eleven sides has 0.97."""
SHAFT_SHARE, HEAD_MOST = 0.5, 3.0
"""A shaft is this share of the length at least, and a head no wider than this times the shaft; a stub axle on a wheel
is no pin. Common practice, no source."""
FULL_LOW, FULL_HIGH, SUNK_HIGH = 0.92, 1.06, 1.2
"""Volume over that of the steps: grooves and cross bores take a little away, a countersunk head adds some."""
ENDS_MM = 0.05
CORNERS_LEAST_N = 3
NORMAL_DIGITS, END_LEAST_N, ENDS_MOST = 4, 6, 6
"""An end of a pin is a flat face of so many triangles at least, the hull's largest few of those."""
SAME = 0.01
"""Diameters within this share are one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ring:
    """Corners of the hull at one height: where along the axis, how wide, whether round."""

    at_mm: float
    wide_mm: float
    area_mm2: float
    is_round: bool


def pin_shafts_mm(survey: Survey) -> tuple[float, ...]:
    """Return the thicknesses of a pin's shaft, that of the longest step first; empty for what is no pin."""
    return shafts_mm(survey.hull_mm, survey.volume_mm3)


def shafts_mm(hull_mm: Floats, volume_mm3: float) -> tuple[float, ...]:
    """Return the thicknesses of a pin's shaft from the vertices of its convex hull and its volume.

    The hull shows both ends and every wider step, the volume that nothing else is there: between two rings of
    corners a pin is as thick as the thinner ring. Kept: three rooms ask, and a finely drawn hull has many rings.
    """
    key = key_of(SHAFTS_VERSION, hull_mm, volume_mm3)
    return kept("pins", key, tuple[float, ...], lambda: _shafts_mm(hull_mm, volume_mm3))


def _shafts_mm(hull_mm: Floats, volume_mm3: float) -> tuple[float, ...]:
    """Look for a pin about every axis that it may have."""
    every = (_shafts_about(hull_mm, along, volume_mm3) for along in _axes(hull_mm))
    return next((found for found in every if found), ())


def _axes(points: Floats) -> Iterator[Floats]:
    """Yield what may be a pin's axis: its longest direction, which a head to one side tilts, and what its ends face."""
    yield np.linalg.svd(points - points.mean(axis=0), full_matrices=False)[2][0]
    try:
        normals = ConvexHull(points).equations[:, :3]
    except QhullError:
        return
    faces, triangles_n = np.unique(np.round(normals, NORMAL_DIGITS), axis=0, return_counts=True)
    for k in np.argsort(-triangles_n)[:ENDS_MOST]:
        if triangles_n[k] >= END_LEAST_N:
            yield faces[k] / np.linalg.norm(faces[k])


def _shafts_about(points: Floats, along: Floats, volume_mm3: float) -> tuple[float, ...]:
    """Return the thicknesses of a pin along one axis, longest step first."""
    rings = _rings(points, along)
    steps: list[tuple[float, float]] = []
    filled = 0.0
    for low, high in pairwise(rings):
        thin, length = min(low, high, key=lambda ring: ring.wide_mm), high.at_mm - low.at_mm
        filled += thin.area_mm2 * length
        if steps and thin.is_round and abs(steps[-1][0] - thin.wide_mm) < SAME * thin.wide_mm:
            steps[-1] = steps[-1][0], steps[-1][1] + length
        elif thin.is_round:
            steps.append((thin.wide_mm, length))
    if not steps:
        return ()
    whole, widest = rings[-1].at_mm - rings[0].at_mm, max(ring.wide_mm for ring in rings)
    shafts = sorted((step for step in steps if step[1] >= step[0]), key=lambda step: -step[1])
    if not shafts or whole <= SLENDER * shafts[0][0] or widest > HEAD_MOST * shafts[-1][0]:
        return ()
    most = SUNK_HIGH if widest > (1.0 + SAME) * shafts[0][0] else FULL_HIGH
    is_full = FULL_LOW * filled < volume_mm3 < most * filled
    if not is_full or sum(mm for _, mm in shafts) < SHAFT_SHARE * whole:
        return ()
    return tuple(dict.fromkeys(round(mm, 2) for mm, _ in shafts))


def _rings(points: Floats, along: Floats) -> list[_Ring]:
    """Return the rings of corners along an axis, those at one height together."""
    basis = np.linalg.svd(along[None, :])[2][1:]
    heights = points @ along
    order = np.argsort(heights)
    cuts = np.flatnonzero(np.diff(heights[order]) > ENDS_MM) + 1
    rings = []
    for rows in np.split(order, cuts):
        if len(rows) < CORNERS_LEAST_N:
            continue
        try:
            section = ConvexHull(points[rows] @ basis.T)
        except QhullError:
            continue
        rings.append(
            _Ring(
                at_mm=float(heights[rows].mean()),
                wide_mm=float(pdist(section.points[section.vertices]).max()),
                area_mm2=float(section.volume),
                is_round=4.0 * math.pi * section.volume / section.area**2 > ROUND,
            )
        )
    areas = np.array([ring.area_mm2 for ring in rings])
    before, after = np.maximum.accumulate(areas), np.maximum.accumulate(areas[::-1])[::-1]
    # What is narrower than the hull beside it is no ring: the mouth of a cross bore, the corner of a head to one side.
    return [ring for ring, least in zip(rings, np.minimum(before, after), strict=True) if ring.area_mm2 > 0.98 * least]
