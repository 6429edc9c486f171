"""Threads drawn as grooves: lands of one radius at even steps along an axis are one bore, as wide as its lands.

Grooves in rings part the wall into lands; a helix leaves one land, that winds round the axis.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.around_axis import across
from planner.survey.bores.cylinder import Cylinder, united
from planner.survey.bores.facets import Facets
from planner.survey.bores.helical_crests import helical_crests
from planner.survey.rays import first_hits

Floats = NDArray[np.float64]

LANDS_LEAST = 3
RADIUS_SHARE, PITCH_SHARE = 0.005, 0.1
"""Lands are alike to this share of their radius, and their steps to this share of a step."""
ROOT_MOST = 1.6
"""A groove is no deeper than to this many radii: beyond, the lands are plates with a bore each."""
RAYS_N = 12
WOUND_MOST, WOUND_RAYS = 0.8, 9
"""A wall that a groove winds round covers less than this share of its cylinder; so many rays round must see it."""
EVEN_SHARE = 0.8
"""So many of a winding groove's steps are even; where it runs out or meets a mouth they are not."""
FINE_N, HEIGHTS_MOST = 160, 2000
"""So many heights to a radius are looked at along a wall that has gaps, and no more than so many in all."""


def threads_of(
    solid: Solid, facets: Facets, cylinders: Sequence[Cylinder], *, coaxial: Callable[[Cylinder, Cylinder], bool]
) -> tuple[list[Cylinder], dict[int, float]]:
    """Return cylinders with the lands of every thread made one, and the step of those by their identity.

    The floors of its grooves are no bores.
    """
    left = sorted(cylinders, key=lambda c: c.low)
    kept: list[Cylinder] = []
    pitches: dict[int, float] = {}
    while left:
        lands = [left.pop(0)]
        for other in list(left):
            gap = other.low - lands[-1].high
            if _alike(lands[0], other) and 0.0 <= gap < lands[0].radius_mm and coaxial(lands[-1], other):
                lands.append(other)
                left.remove(other)
        pitch = _pitch_mm(solid, facets.normals, lands)
        whole = None if pitch is None else united(solid, facets, lands, 0.0)
        if pitch is None or whole is None:
            kept += lands
        else:
            kept.append(whole)
            pitches[id(whole)] = pitch
    for crest, pitch in helical_crests(solid, facets):
        if not any(_alike(crest, c) and coaxial(crest, c) for c in kept):  # else its land is a wall, found as such
            kept.append(crest)
            pitches[id(crest)] = pitch
    for cylinder in kept:
        wound = None if id(cylinder) in pitches else _wound_mm(solid, facets, cylinder)
        if wound is not None:
            pitches[id(cylinder)] = wound
    floors = [c for c in kept if any(_is_floor(c, t, pitches, coaxial(c, t)) for t in kept if id(t) in pitches)]
    return [c for c in kept if not any(c is floor for floor in floors)], pitches


def _alike(one: Cylinder, other: Cylinder) -> bool:
    """Return whether two cylinders have one radius."""
    return abs(other.radius_mm - one.radius_mm) < RADIUS_SHARE * one.radius_mm


def _is_floor(one: Cylinder, thread: Cylinder, pitches: dict[int, float], same_axis: bool) -> bool:
    """Return whether a cylinder is the floor of a thread's grooves, which square and blunt ones have."""
    wider = 1.0 + RADIUS_SHARE < one.radius_mm / thread.radius_mm < ROOT_MOST
    pitch = pitches[id(thread)]
    within = thread.low - pitch < one.low and one.high < thread.high + pitch
    short = one.depth_mm < pitch or abs(pitches.get(id(one), 0.0) - pitch) < PITCH_SHARE * pitch
    return same_axis and wider and within and short


def _pitch_mm(solid: Solid, normals: Floats, lands: Sequence[Cylinder]) -> float | None:
    """Return the step between lands; None where they are too few, uneven, or no grooves lie between them."""
    if len(lands) < LANDS_LEAST:
        return None
    pitch = None
    if len(lands) > LANDS_LEAST:  # the first and last land may be longer or shorter: the grooves tell
        pitch = _even_mm([(one.high + other.low) / 2 for one, other in pairwise(lands)])
    if pitch is None:
        pitch = _even_mm([(land.low + land.high) / 2 for land in lands])
    if pitch is None:
        return None
    out = _round_about(lands[0].axis)
    middles = np.array([one.at((one.high + other.low) / 2) for one, other in pairwise(lands)])
    hits = first_hits(solid, normals, np.repeat(middles, RAYS_N, axis=0), np.tile(out, (len(middles), 1)))
    near = hits.distance_mm < ROOT_MOST * lands[0].radius_mm
    return pitch if near.sum() == RAYS_N * len(middles) else None


def _even_mm(places: Sequence[float]) -> float | None:
    """Return the step between places along an axis; None where it is uneven."""
    steps = np.diff(places)
    pitch = float(np.median(steps))
    return pitch if np.abs(steps - pitch).max() <= PITCH_SHARE * pitch else None


def _wound_mm(solid: Solid, facets: Facets, cylinder: Cylinder) -> float | None:
    """Return the step of a groove that winds round a cylinder's wall; None where none does."""
    whole = 2.0 * np.pi * cylinder.radius_mm * cylinder.depth_mm * float(cylinder.turn.mean())
    if float(facets.areas_mm2[cylinder.faces].sum()) > WOUND_MOST * whole:
        return None
    heights_n = int(np.clip(cylinder.depth_mm / cylinder.radius_mm * FINE_N, 2, HEIGHTS_MOST))
    step = cylinder.depth_mm / heights_n
    middles = np.array([cylinder.at(cylinder.low + (k + 0.5) * step) for k in range(heights_n)])
    out = _round_about(cylinder.axis)
    hits = first_hits(solid, facets.normals, np.repeat(middles, RAYS_N, axis=0), np.tile(out, (heights_n, 1)))
    far = np.full(heights_n * RAYS_N, np.inf)
    far[hits.ray] = hits.distance_mm
    ways = far.reshape(heights_n, RAYS_N).T
    pitches = (_even_round_mm([_gaps(away, cylinder)[side] * step for away in ways]) for side in (0, 1))
    return next((pitch for pitch in pitches if pitch is not None), None)


def _even_round_mm(places: Sequence[Floats]) -> float | None:
    """Return the step between places along each of some rays round an axis; None where they are few or uneven."""
    seen = [np.diff(along) for along in places if len(along) >= LANDS_LEAST - 1]
    if len(seen) < WOUND_RAYS:
        return None
    steps = np.concatenate(seen)
    pitch = float(np.median(steps))
    even = np.abs(steps - pitch) <= PITCH_SHARE * pitch
    return float(steps[even].mean()) if even.mean() >= EVEN_SHARE else None


def _gaps(away: Floats, cylinder: Cylinder) -> tuple[Floats, Floats]:
    """Return where the grooves between lands begin and end along a line of rays, in steps; none if one is too deep.

    Where a thread runs out or meets a mouth, one side of a groove is cut off: the other tells its step.
    """
    slack = RADIUS_SHARE * cylinder.radius_mm
    land = (away > cylinder.flat_mm - slack) & (away < cylinder.radius_mm + slack)
    turns = np.flatnonzero(np.diff(land.astype(np.int8)))
    begins, ends = turns[land[turns]], turns[~land[turns]]
    none = np.empty(0), np.empty(0)
    if not len(begins) or not len(ends):
        return none
    ends, begins = ends[ends > begins[0]], begins[begins < ends[-1]]
    deepest = (away[first + 1 : last + 1].max() for first, last in zip(begins, ends, strict=True))
    too_deep = max(deepest, default=0.0) > ROOT_MOST * cylinder.radius_mm
    return none if too_deep else (begins.astype(float), ends.astype(float))


def _round_about(axis: Floats) -> Floats:
    """Return directions evenly round an axis, (12, 3)."""
    x, y = across(axis)
    angle = np.arange(RAYS_N) * 2 * np.pi / RAYS_N
    out: Floats = np.cos(angle)[:, None] * x + np.sin(angle)[:, None] * y
    return out
