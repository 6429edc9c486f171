"""Wobble at a tip through a chain of pins: the worst that the plays allow, and what nine of ten printers stay below."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mechanism.play.sleeve import Sleeve, reach_ratio, ways_of_ends

Floats = NDArray[np.float64]
PRINTERS_N, SEED = 1000, 20_261_129
USUAL_SHARE = 0.9
WAYS_N = 200
"""Directions that are tried; the best of them is then led to its own worst."""
ROUNDS_MOST = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class PinPlay:
    """One joint's play: the bores on its pin, and the room between the faces beside them.

    Parameters
    ----------
    sleeves
        The bores.
    float_mm
        How far the moving part goes along the axis, to one side, until its faces touch: least, as expected, most.
    tilt_rad
        How far it tilts from there until they touch, as expected; infinite where faces do not hold it.
    """

    sleeves: tuple[Sleeve, ...]
    float_mm: tuple[float, float, float] = (0.0, 0.0, 0.0)
    tilt_rad: float = math.inf

    def room(self, place: float) -> tuple[float, float]:
        """Return float and tilt at one place of their distribution: the tilt goes with the float, for small angles."""
        room_mm, expected_mm = _triangular(place, *self.float_mm), self.float_mm[1]
        return room_mm, self.tilt_rad * room_mm / expected_mm if expected_mm > 0.0 else self.tilt_rad


@dataclass(frozen=True, slots=True, kw_only=True)
class Wobble:
    """How far a tip can be moved from its middle, to either side, in mm.

    Parameters
    ----------
    worst_mm
        With the most play in every bore.
    p90_mm
        What 90 of 100 printers stay below.
    """

    worst_mm: float
    p90_mm: float


def wobble_of(joints: Sequence[PinPlay], tip_mm: Vec3) -> Wobble:
    """Return the wobble of a tip that is held by some joints, one after the other.

    Notes
    -----
    Printers differ in how much smaller than drawn they print bores and gaps. 1,000 of them are drawn, seeded, each with
    one place between least and most play for all of these, triangular about what is expected. More play never makes a
    tip wobble less, so the printer at nine tenths of them has the wobble at nine tenths.
    """
    place = float(np.quantile(np.random.default_rng(SEED).random(PRINTERS_N), USUAL_SHARE))
    worst = _farthest_mm(joints, tip_mm, 1.0)
    return Wobble(worst_mm=worst, p90_mm=min(_farthest_mm(joints, tip_mm, place), worst))


def _farthest_mm(joints: Sequence[PinPlay], tip_mm: Vec3, place: float) -> float:
    """Return how far the tip goes with all plays at one place of their distributions, 1 at their most.

    The tip can reach the sum of what each bore lets it reach; along a way n that is a sum of support functions h(n).
    The farthest point is the greatest h over all ways. From each way the farthest point along it gives a way with no
    smaller h, so that the best way tried is led to a top (convex maximisation, textbook, from memory).
    """
    discs: list[tuple[float, Floats]] = []
    floats: list[tuple[float, Floats]] = []
    ways = _sphere(WAYS_N)
    reach = np.zeros(len(ways))
    for joint in joints:
        room_mm, tilt_most = joint.room(place)
        plays = [_triangular(place, *sleeve.play_mm) for sleeve in joint.sleeves]
        tilt = sum(play / sleeve.long_mm for play, sleeve in zip(plays, joint.sleeves, strict=True))
        share = min(1.0, tilt_most / tilt) if tilt > 0.0 else 1.0
        for play, sleeve in zip(plays, joint.sleeves, strict=True):
            # where faces end the tilt, what it leaves of the play moves both ends of the bore alike
            for part, leans in ((share, 1.0), (1.0 - share, 0.0)):
                reach += play * part * reach_ratio(sleeve, tip_mm, ways, leans)
                discs += [(play * part / 2.0, one) for one in ways_of_ends(sleeve, tip_mm, leans)]
        if joint.sleeves:
            # faces that touch as the part tilts leave no float: between both the room is shared in proportion
            used = tilt * share / tilt_most if tilt_most > 0.0 else 0.0
            free = room_mm * max(1.0 - used, 0.0)
            axis = np.array(joint.sleeves[0].axis)
            floats.append((free, axis))
            reach += free * np.abs(ways @ axis)
    return _led_mm(discs, floats, ways[int(reach.argmax())])


def _led_mm(discs: Sequence[tuple[float, Floats]], floats: Sequence[tuple[float, Floats]], way: Floats) -> float:
    """Return how far the farthest point is that a way leads to, by going to the farthest along it again and again."""
    far = 0.0
    for _ in range(ROUNDS_MOST):
        point = np.zeros(3)
        for radius, one in discs:
            pushed = one.T @ way
            length = float(np.linalg.norm(pushed))
            if length > 0.0:
                point = point + radius * one @ pushed / length
        for free, axis in floats:
            point = point + math.copysign(free, float(axis @ way)) * axis
        before, far = far, float(np.linalg.norm(point))
        if far <= before * (1.0 + 1e-12):
            break
        way = point / far
    return far


def _triangular(share: float, low: float, middle: float, high: float) -> float:
    """Return a quantile of a triangular distribution (inverse of its distribution function, from memory)."""
    if high <= low:
        return middle
    if share < (middle - low) / (high - low):
        return low + math.sqrt(share * (high - low) * (middle - low))
    return high - math.sqrt((1.0 - share) * (high - low) * (high - middle))


def _sphere(n: int) -> Floats:
    """Return evenly spread unit ways (n, 3) on a half sphere (Fibonacci lattice), and the axes."""
    k = np.arange(n)
    z = 1.0 - (k + 0.5) / n
    turn = np.pi * (1.0 + 5.0**0.5) * k
    ring = np.sqrt(1.0 - z * z)
    return np.vstack([np.column_stack([ring * np.cos(turn), ring * np.sin(turn), z]), np.eye(3)])
