"""Threads drawn as grooves: lands of one radius at even steps along an axis are one bore, as wide as its lands."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.around_axis import across
from planner.survey.bores.cylinder import Cylinder, united
from planner.survey.bores.facets import Facets
from planner.survey.rays import first_hits

Floats = NDArray[np.float64]

LANDS_LEAST = 3
RADIUS_SHARE, PITCH_SHARE = 0.005, 0.1
"""Lands are alike to this share of their radius, and their steps to this share of a step."""
ROOT_MOST = 1.6
"""A groove is no deeper than to this many radii: beyond, the lands are plates with a bore each."""
RAYS_N = 12


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
            alike = abs(other.radius_mm - lands[0].radius_mm) < RADIUS_SHARE * lands[0].radius_mm
            if alike and 0.0 <= gap < lands[0].radius_mm and coaxial(lands[-1], other):
                lands.append(other)
                left.remove(other)
        pitch = _pitch_mm(solid, facets.normals, lands)
        whole = None if pitch is None else united(solid, facets, lands, 0.0)
        if pitch is None or whole is None:
            kept += lands
        else:
            kept.append(whole)
            pitches[id(whole)] = pitch
    floors = [c for c in kept if any(_is_floor(c, t, pitches, coaxial(c, t)) for t in kept if id(t) in pitches)]
    return [c for c in kept if not any(c is floor for floor in floors)], pitches


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
    x, y = across(lands[0].axis)
    angle = np.arange(RAYS_N) * 2 * np.pi / RAYS_N
    out = np.cos(angle)[:, None] * x + np.sin(angle)[:, None] * y
    middles = np.array([one.at((one.high + other.low) / 2) for one, other in pairwise(lands)])
    hits = first_hits(solid, normals, np.repeat(middles, RAYS_N, axis=0), np.tile(out, (len(middles), 1)))
    near = hits.distance_mm < ROOT_MOST * lands[0].radius_mm
    return pitch if near.sum() == RAYS_N * len(middles) else None


def _even_mm(places: Sequence[float]) -> float | None:
    """Return the step between places along an axis; None where it is uneven."""
    steps = np.diff(places)
    pitch = float(np.median(steps))
    return pitch if np.abs(steps - pitch).max() <= PITCH_SHARE * pitch else None
