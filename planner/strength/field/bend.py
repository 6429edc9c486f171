"""How a part bends under its load, seen from what holds it: rigid motion taken out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.strength.elements.nodal_forces import PATCHES_N, Press

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
LEAST_N = 12
"""A support has so many places at least, its nearest: fewer do not tell a turn."""
NEAR = 1.25
"""A place this near to a bore's axis, by its radius, is on its wall; no source. About a patch, all is held that its own
dent reaches, as far as stress is left out there: else the dent would count as a bend."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bend:
    """Places of a part's surface as drawn, and how far each moves at size under its load.

    Parameters
    ----------
    points_mm, shift_mm
        (n, 3) each, in the frame of the mesh.
    low_share, high_share
        What the range of the material's stiffness makes of it, at least and at most, as shares of ``shift_mm``.
    """

    points_mm: Floats
    shift_mm: Floats
    low_share: float
    high_share: float

    @property
    def most_mm(self) -> float:
        """How far the place moves that moves most."""
        return float(np.linalg.norm(self.shift_mm, axis=1).max(initial=0.0))


def held_still(points_mm: Floats, shift_mm: Floats, holds: Sequence[Press]) -> Floats:
    """Return shifts with the small motion of a rigid body taken out that fits best where the part is held."""
    held = np.zeros(len(points_mm), dtype=bool)
    for one in holds:
        held |= _held_by(one, points_mm)
    about = points_mm[held].mean(axis=0)
    size = max(float(np.abs(points_mm[held] - about).max()), 1e-9)

    def motions(points: Floats) -> Floats:
        arms = (points - about) / size
        return np.stack([*(np.tile(way, (len(arms), 1)) for way in np.eye(3)), *(np.cross(w, arms) for w in np.eye(3))])

    of_held = motions(points_mm[held]).reshape(6, -1).T
    amounts = np.linalg.lstsq(of_held, shift_mm[held].ravel(), rcond=1e-6)[0]
    return np.asarray(shift_mm - np.tensordot(amounts, motions(points_mm), axes=1))


def _held_by(one: Press, points_mm: Floats) -> Flags:
    """Return which places a support holds: its bore's wall, else what lies nearest to it."""
    off = points_mm - np.array(one.at_mm)
    if one.axis is not None:
        axis = np.array(one.axis) / np.linalg.norm(one.axis)
        along = off @ axis
        from_axis = np.linalg.norm(off - along[:, None] * axis, axis=1)
        wall = (from_axis <= NEAR * one.radius_mm) & (np.abs(along) <= NEAR * one.deep_mm / 2.0)
        if wall.sum() >= LEAST_N:
            return np.asarray(wall)
    far_mm = np.linalg.norm(off, axis=1)
    nearest_mm = np.sort(far_mm)[:LEAST_N]
    return np.asarray(far_mm <= max(PATCHES_N * one.patch_mm, float(nearest_mm[-1])))
