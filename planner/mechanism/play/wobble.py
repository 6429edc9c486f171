"""Wobble at a tip through a chain of pins: the worst that the plays allow, and what nine of ten printers stay below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mechanism.play.sleeve import Sleeve, reach_ratio, ways_of_ends

Floats = NDArray[np.float64]
PRINTERS_N, SEED = 1000, 20_261_129
USUAL_SHARE = 0.9
WAYS_N = 600
"""Directions that are tried; the best of them is then led to its own worst."""
ROUNDS_MOST = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Wobble:
    """How far a tip can be moved from its middle, to either side, in mm.

    Parameters
    ----------
    worst_mm
        With the most play in every bore.
    p90_mm
        What 90 of 100 printers stay below.
    way
        Direction of the worst.
    shares
        Each bore's part of the worst, in the order of the sleeves.
    """

    worst_mm: float
    p90_mm: float
    way: Vec3
    shares: tuple[float, ...]


def wobble_of(sleeves: Sequence[Sleeve], tip_mm: Vec3) -> Wobble:
    """Return the wobble of a tip that is held by some bores on pins, one after the other.

    Notes
    -----
    The tip can reach the sum of what each bore lets it reach; along a way n that is a sum of support functions h(n).
    The farthest point is the greatest h over all ways. From each way the farthest point along it gives a way with no
    smaller h, so that the best way tried is led to a top (convex maximisation, textbook, from memory).

    Printers differ in how much smaller than drawn they print bores: 1,000 of them are drawn, seeded, each with one
    place between least and most play for all its bores, triangular about what is expected.
    """
    if not sleeves:
        return Wobble(worst_mm=0.0, p90_mm=0.0, way=(0.0, 0.0, 1.0), shares=())
    ways = _sphere(WAYS_N)
    reach = np.array([reach_ratio(sleeve, tip_mm, ways) for sleeve in sleeves])
    most = np.array([sleeve.play_mm[2] for sleeve in sleeves])
    way = _led(sleeves, tip_mm, ways[int((most @ reach).argmax())])
    each = most * np.array([reach_ratio(sleeve, tip_mm, way[None])[0] for sleeve in sleeves])
    worst = float(each.sum())
    wobbles = (_drawn_plays(sleeves) @ reach).max(axis=1)
    x, y, z = (float(v) for v in way)
    return Wobble(
        worst_mm=worst,
        p90_mm=min(float(np.quantile(wobbles, USUAL_SHARE)), worst),
        way=(x, y, z),
        shares=tuple(float(v) / worst if worst > 0.0 else 0.0 for v in each),
    )


def _led(sleeves: Sequence[Sleeve], tip_mm: Vec3, way: Floats) -> Floats:
    """Return the way that a way is led to, by going to the farthest point along it again and again."""
    maps = [(sleeve.play_mm[2] / 2.0, one) for sleeve in sleeves for one in ways_of_ends(sleeve, tip_mm)]
    for _ in range(ROUNDS_MOST):
        point = np.zeros(3)
        for radius, one in maps:
            pushed = one.T @ way
            length = float(np.linalg.norm(pushed))
            if length > 0.0:
                point = point + radius * one @ pushed / length
        far = float(np.linalg.norm(point))
        if far <= 0.0:
            break
        moved, way = float(np.linalg.norm(point / far - way)), point / far
        if moved < 1e-12:
            break
    return way


def _drawn_plays(sleeves: Sequence[Sleeve]) -> Floats:
    """Return the plays (printers, sleeves) of 1,000 printers."""
    rng = np.random.default_rng(SEED)
    plays = np.empty((PRINTERS_N, len(sleeves)))
    at = rng.random(PRINTERS_N)
    for k, sleeve in enumerate(sleeves):
        low, middle, high = sleeve.play_mm
        plays[:, k] = _triangular(at, low, middle, high)
    return plays


def _triangular(share: Floats, low: float, middle: float, high: float) -> Floats:
    """Return the quantiles of a triangular distribution (inverse of its distribution function, from memory)."""
    if high <= low:
        return np.full_like(share, middle)
    rising = low + np.sqrt(share * (high - low) * (middle - low))
    falling = high - np.sqrt((1.0 - share) * (high - low) * (high - middle))
    found: Floats = np.where(share < (middle - low) / (high - low), rising, falling)
    return found


def _sphere(n: int) -> Floats:
    """Return evenly spread unit ways (n, 3) on a half sphere (Fibonacci lattice), and the axes."""
    k = np.arange(n)
    z = 1.0 - (k + 0.5) / n
    turn = np.pi * (1.0 + 5.0**0.5) * k
    ring = np.sqrt(1.0 - z * z)
    return np.vstack([np.column_stack([ring * np.cos(turn), ring * np.sin(turn), z]), np.eye(3)])
