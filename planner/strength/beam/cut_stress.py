"""Stresses in a cut, from the force and moment that it carries: pull, bending, shear and torsion."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.strength.beam.skin_and_core import Zones

Floats = NDArray[np.float64]
LEAST_N = 1e-9
SHEAR_MOST = 6.0
"""No cut has so many times its mean shear at the centroid: a rectangle 1.5, a thin round tube 2, a thin web some more
(textbook); what flows through is never under half the mean width."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CutStress:
    """Stress tensors at places of a cut, in the cut's axes (two in its plane, then its normal)."""

    places_mm: Floats
    """(n, 2), in the cut's plane."""
    tensors_mpa: Floats
    """(n, 3, 3)."""


def shear_most_mpa(zones: Zones, force_n: Floats) -> float:
    """Return what the shear of a force across a cut surely is not over."""
    return SHEAR_MOST * float(np.linalg.norm(force_n[:2])) / zones.moments.area_mm2


def stress_in(zones: Zones, force_n: Floats, moment_n_mm: Floats, *, bound_mpa: float = 0.0) -> CutStress:
    """Return stresses at all corners and at the centroid.

    Where shear at the centroid is surely under ``bound_mpa``, it is left at that of torsion and pull: to find the shear
    of a force across takes as long as all else.

    Corners take pull and unsymmetrical bending (Navier, textbook) with the greatest shear of torsion, wherever that is;
    the centroid takes pull with the shear of the force across and of torsion. ``moment_n_mm`` is about the centroid.
    """
    moments = zones.moments
    centre, second = moments.centre_mm, moments.about_centre_mm4
    corners = zones.corners_mm
    bends = np.array([-moment_n_mm[1], moment_n_mm[0]])  # sum of s x and of s y over the section
    rise = np.linalg.solve(second, bends)
    pull = force_n[2] / moments.area_mm2
    twist = abs(moment_n_mm[2]) * zones.torsion.shear_mpa_per_n_mm if abs(moment_n_mm[2]) > LEAST_N else 0.0
    places = np.vstack([corners, centre])
    tensors = np.zeros((len(places), 3, 3))
    tensors[:, 2, 2] = pull + (places - centre) @ rise
    tangents = np.column_stack([-(corners - centre)[:, 1], (corners - centre)[:, 0]])
    long = np.linalg.norm(tangents, axis=1)
    tensors[:-1, 2, :2] = twist * tangents / np.where(long > 0.0, long, 1.0)[:, None]
    across = float(np.linalg.norm(force_n[:2]))
    if across > LEAST_N and shear_most_mpa(zones, force_n) > bound_mpa:
        way = force_n[:2] / across
        tensors[-1, 2, :2] = way * (across * zones.shear_mpa_per_n(way) + twist)
    else:
        tensors[-1, 2, 0] = twist
    tensors[:, :2, 2] = tensors[:, 2, :2]
    return CutStress(places_mm=places, tensors_mpa=tensors)
