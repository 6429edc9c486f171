"""A bore on its pin: how far its play lets a point of the part on it move, in any direction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sleeve:
    """One part's bore on a pin, in the device's frame at size.

    Parameters
    ----------
    axis
        Unit vector.
    at_mm
        Middle of the stretch that the bore guides the pin along.
    long_mm
        Length of that stretch, over all the part's bores on the pin.
    play_mm
        Bore less pin, on the diameter: least, as expected, most.
    name
        What a person would call it.
    """

    axis: Vec3
    at_mm: Vec3
    long_mm: float
    play_mm: tuple[float, float, float]
    name: str = ""


def middle_mm(axis: Vec3, on_mm: Vec3, ends_mm: Sequence[float]) -> Vec3:
    """Return the middle of a stretch of an axis: ``on_mm`` is a point of it, ``ends_mm`` lie so far along it."""
    line, on = np.array(axis), np.array(on_mm)
    x, y, z = (float(v) for v in on + ((min(ends_mm) + max(ends_mm)) / 2 - float(on @ line)) * line)
    return x, y, z


def ways_of_ends(sleeve: Sleeve, tip_mm: Vec3, tilt_ratio: float = 1.0) -> tuple[Floats, Floats]:
    """Return how a tip moves with each end of the bore's axis: two maps (3, 3), exact for small plays.

    The ends lie l/2 to either side of the middle, each free in a disc of half the play across the axis. Moved by e1 and
    e2 they shift the part by (e1 + e2)/2 and tilt it by a x (e2 - e1)/l about its middle, where a is the axis.
    ``tilt_ratio`` is how much of that tilt something else leaves.
    """
    axis, arm = np.array(sleeve.axis), np.array(tip_mm) - np.array(sleeve.at_mm)
    flat = np.eye(3) - np.outer(axis, axis)
    tilt = -tilt_ratio * _crossing(arm) @ _crossing(axis) @ flat / sleeve.long_mm
    shift = flat / 2.0
    return shift - tilt, shift + tilt


def reach_ratio(sleeve: Sleeve, tip_mm: Vec3, ways: Floats, tilt_ratio: float = 1.0) -> Floats:
    """Return how far the tip moves along each unit way (n, 3), to one side, for 1 mm of play.

    Each end of the bore's axis goes as far as its disc lets it: the support function of a sum of two discs
    (convex geometry, textbook, from memory).
    """
    first, second = ways_of_ends(sleeve, tip_mm, tilt_ratio)
    found: Floats = (np.linalg.norm(ways @ first, axis=1) + np.linalg.norm(ways @ second, axis=1)) / 2.0
    return found


def _crossing(v: Floats) -> Floats:
    """Return the matrix of v x."""
    return np.array([[0.0, -v[2], v[1]], [v[2], 0.0, -v[0]], [-v[1], v[0], 0.0]])
