"""Stresses in a cut, from the force and moment that it carries: pull, bending, shear and torsion; and the worst."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.strength.beam.curved.curved_bending import fibre_stress_mpa
from planner.strength.beam.curved.curved_way import Curve
from planner.strength.beam.curved.radial_stress import radial_stress_mpa
from planner.strength.beam.cut_forces import LEAST_N, Cut, summed
from planner.strength.beam.entering_strips import Linear, Strip, in_strip, linear
from planner.strength.beam.legs.portal import Portal
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.skin_and_core import Zones
from planner.strength.criterion import index
from planner.strength.loads.part_load import PartLoad

Floats = NDArray[np.float64]
SHEAR_MOST = 6.0
"""No cut has so many times its mean shear at the centroid: a rectangle 1.5, a thin round tube 2, a thin web some more
(textbook); what flows through is never under half the mean width."""
UNSHEARED = 0.3
"""Shear at the centroid that surely takes less than this share of what the worst corner takes adds under 5 % to it."""
UNTWISTED = 0.05
"""The same where torsion adds to it straight; and torsion that surely takes less than this share adds no more to it, as
roots of the index add up to no more than their sum."""
NOWHERE = np.zeros((0, 2))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CutStress:
    """Stress tensors at places of a cut, in the cut's axes (two in its plane, then its normal)."""

    places_mm: Floats
    """(n, 2), in the cut's plane."""
    tensors_mpa: Floats
    """(n, 3, 3)."""


def shear_strength_mpa(stuff: BeamStuff) -> float:
    """Return the shear that a material bears whichever way it lies."""
    return float(min(stuff.strengths.shear_mpa, stuff.strengths.along_mpa / 3.0**0.5))


def shear_most_mpa(zones: Zones, force_n: Floats) -> float:
    """Return what the shear of a force across a cut surely is not over."""
    return SHEAR_MOST * math.sqrt(force_n[:2] @ force_n[:2]) / zones.moments.area_mm2


def stress_in(
    zones: Zones,
    force_n: Floats,
    moment_n_mm: Floats,
    *,
    bound_mpa: float = 0.0,
    twists: bool = True,
    curve: Curve | None = None,
    portal: Portal | None = None,
) -> CutStress:
    """Return stresses at all corners and at the centroid.

    Where shear at the centroid is surely under ``bound_mpa``, it is left at that of torsion and pull: to find the shear
    of a force across takes as long as all else. ``twists`` is whether torsion counts.

    Corners take pull and unsymmetrical bending (Navier, textbook; where a limb is curved, Winkler and Bach), and so do
    places all along the edge with the shear of torsion there, which is none at an outer corner. The centroid takes pull
    with the shear of the force across and as much of torsion as goes that way anywhere, and where a limb is curved the
    greatest stress towards the centre of the curve, wherever that is. Legs between joined ends bend under torsion, too:
    their corners take the greatest of it. ``moment_n_mm`` is about the centroid.
    """
    moments = zones.moments
    centre, second = moments.centre_mm, moments.about_centre_mm4
    corners = zones.corners_mm
    bends = np.array([-moment_n_mm[1], moment_n_mm[0]])  # sum of s x and of s y over the section
    share = 1.0 if portal is None else portal.twist_share
    turns = twists and abs(moment_n_mm[2]) > LEAST_N
    edge = share * moment_n_mm[2] * zones.torsion.edge_mpa_per_n_mm if turns else NOWHERE
    places = np.vstack([corners, zones.torsion.places_mm if turns else NOWHERE, centre])
    tensors = np.zeros((len(places), 3, 3))
    if curve is None:
        tensors[:, 2, 2] = force_n[2] / moments.area_mm2 + (places - centre) @ np.linalg.solve(second, bends)
    else:
        tensors[:, 2, 2] = fibre_stress_mpa(zones, curve, float(force_n[2]), bends, places)
    tensors[len(corners) : -1, 2, :2] = edge
    if portal is not None:  # it bends one way at one end of the legs, and the other way at the other
        own = tensors[: len(corners)]
        own[:, 2, 2] += np.copysign(abs(moment_n_mm[2]) * portal.corner_mpa, own[:, 2, 2])
        tangents = np.column_stack([-(corners - centre)[:, 1], (corners - centre)[:, 0]])
        long = np.linalg.norm(tangents, axis=1)
        twist = np.linalg.norm(edge, axis=1).max(initial=0.0)
        own[:, 2, :2] = twist * tangents / np.where(long > 0.0, long, 1.0)[:, None]
    across = math.sqrt(force_n[:2] @ force_n[:2])
    if across > LEAST_N and shear_most_mpa(zones, force_n) > bound_mpa:
        way = force_n[:2] / across
        tensors[-1, 2, :2] = way * (across * zones.shear_mpa_per_n(way) + np.abs(edge @ way).max(initial=0.0))
    tensors[:, :2, 2] = tensors[:, 2, :2]
    if curve is not None:
        tensors[-1, :2, :2] = radial_stress_mpa(zones, curve, bends) * np.outer(curve.inward, curve.inward)
    return CutStress(places_mm=places, tensors_mpa=tensors)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Zoned:
    """The worst of a cut with its zones, and all its stresses."""

    index_ratio: float
    place_mm: Floats
    tensor_mpa: Floats
    tensors_mpa: Floats
    spread_mm: float = 0.0


def judged_zones(
    zones: Zones,
    cut: Cut,
    loads: Sequence[PartLoad],
    stuff: BeamStuff,
    strips: Sequence[Strip] = (),
    curve: Curve | None = None,
    portal: Portal | None = None,
) -> Zoned:
    """Return the worst of a cut: of the whole section under all its loads, and of strips that take up one of them.

    ``curve`` is how the limb is curved, if it is, and ``portal`` what twists legs between joined ends; strips are told
    as straight and in one piece.
    """
    about = cut.at_mm + zones.moments.centre_mm @ cut.axes[:2]
    force, moment = summed(cut, loads, about)
    shear_mpa = shear_strength_mpa(stuff)
    bound_mpa, turns = math.inf, abs(moment[2]) > LEAST_N
    twists = turns and portal is not None
    while True:
        stress = stress_in(zones, force, moment, bound_mpa=bound_mpa, twists=twists, curve=curve, portal=portal)
        tensors = cut.axes.T @ stress.tensors_mpa @ cut.axes
        found = index(tensors, np.array(stuff.normal), stuff.strengths)
        root_mpa = float(found.max()) ** 0.5 * shear_mpa
        if turns and not twists and abs(moment[2]) * zones.twist_most_mpa > UNTWISTED * root_mpa:
            twists = True
            continue
        counts_mpa = (UNTWISTED if twists else UNSHEARED) * root_mpa
        if bound_mpa < math.inf or shear_most_mpa(zones, force) <= counts_mpa:
            break
        bound_mpa = counts_mpa
    most = _zoned(cut, stress.places_mm, tensors, found)
    sides = dict[int, tuple[Linear, float]]()
    for strip in strips:
        if id(strip.loads) not in sides:  # the strips of one side share its loads
            sides[id(strip.loads)] = linear(zones, cut, strip.loads)
        least_mpa = UNTWISTED * most.index_ratio**0.5 * shear_mpa
        carried = in_strip(strip, zones, cut, sides[id(strip.loads)], least_mpa)
        if carried is None:
            continue
        stressed, own = carried
        places, tensors = stressed.all_over(own)
        tensors = cut.axes.T @ tensors @ cut.axes
        one = _zoned(cut, places, tensors, index(tensors, np.array(stuff.normal), stuff.strengths))
        both = np.concatenate([most.tensors_mpa, one.tensors_mpa])
        worse = replace(one, spread_mm=strip.wide_mm) if one.index_ratio > most.index_ratio else most
        most = replace(worse, tensors_mpa=both)
    return most


def _zoned(cut: Cut, places_mm: Floats, tensors_mpa: Floats, found: Floats) -> Zoned:
    """Return the worst of some places of a cut."""
    worst = int(found.argmax())
    return Zoned(
        index_ratio=float(found[worst]),
        place_mm=cut.at_mm + places_mm[worst] @ cut.axes[:2],
        tensor_mpa=tensors_mpa[worst],
        tensors_mpa=tensors_mpa,
    )
