"""Slender legs side by side, as in a ring, a link or a frame: what they may take that a cut through all does not tell.

Navier's formula takes all pieces of a cut as one stiff section. Legs that stand apart over several times their own
thickness bend each by itself. In a ring of radius R that is pulled by F the greatest moment is F R / π, which is 2 / π
of a leg's pull times its distance from the way; in a ladder with stiff rungs it is a leg's part of the force across
times half its length (both Roark's Formulas for Stress and Strain, rings and frames, from memory). Where the ends are
stiff a pull gives less. So this is a doubt and no stress.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.strength.beam.cut_forces import Cut, summed
from planner.strength.beam.cut_pieces import Pieces
from planner.strength.beam.cut_shapes import printed_zones
from planner.strength.beam.flat_moments import polygons_of
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.skin_and_core import Zones
from planner.strength.criterion import index
from planner.strength.loads.part_load import PartLoad

Floats = NDArray[np.float64]
RING_SHARE = 2.0 / np.pi
"""Of N R, in a ring."""
SLENDER = 3.0
"""Legs bend by themselves that run side by side over so many times their thickness; no source."""
OFF_MIDDLE = 1.2
"""A leg reaches so many times half of its thickness, as its centroid need not lie in its middle; no source."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Leg:
    """One piece of a cut: its area, centroid and second moments in the cut's plane, and how far it reaches."""

    area_mm2: float
    centre_mm: Floats
    second_mm4: Floats
    reach_mm: float


def leg_of(zones: Zones) -> Leg:
    """Return a leg from its printed section."""
    moments = zones.moments
    reach = float(np.linalg.norm(zones.corners_mm - moments.centre_mm, axis=1).max())
    return Leg(
        area_mm2=moments.area_mm2,
        centre_mm=moments.centre_mm,
        second_mm4=moments.about_centre_mm4,
        reach_mm=min(reach, thick_mm(shapely.convex_hull(zones.whole)) / 2.0 * OFF_MIDDLE),
    )


def stand_apart(cuts: Sequence[tuple[Cut, shapely.Geometry, Pieces]]) -> dict[int, float]:
    """Return which cuts of a way go through slender legs, and how long these are.

    Legs are runs of cuts in the same number of pieces, two and more, whose sides hold together. They reach half of the
    way to the next cut at either end: of a few cuts through a ring, those near its crowns may be left out.
    """
    counts = [0 if pieces.each else len(polygons_of(shape)) for _, shape, pieces in cuts]
    found, start, last = dict[int, float](), 0, len(cuts) - 1
    for n in range(1, len(cuts) + 1):
        if n < len(cuts) and counts[n] == counts[start]:
            continue
        if counts[start] > 1:
            long_mm = _between_mm(cuts[max(start - 1, 0)], cuts[n - 1]) + _between_mm(cuts[start], cuts[min(n, last)])
            long_mm /= 2.0
            thin_mm = min(thick_mm(one) for one in polygons_of(cuts[(start + n - 1) // 2][1]))
            found |= dict.fromkeys(range(start, n), long_mm) if long_mm > SLENDER * thin_mm else {}
        start = n
    return found


def _between_mm(one: tuple[Cut, shapely.Geometry, Pieces], other: tuple[Cut, shapely.Geometry, Pieces]) -> float:
    """Return how far two cuts are apart."""
    return float(np.linalg.norm(other[0].at_mm - one[0].at_mm))


def thick_mm(polygon: shapely.Polygon) -> float:
    """Return about how thick a leg is: the shorter side of the box about it."""
    box = shapely.oriented_envelope(polygon)
    corners = np.asarray(box.exterior.coords) if isinstance(box, shapely.Polygon) else np.zeros((3, 2))
    return float(min(np.linalg.norm(corners[1] - corners[0]), np.linalg.norm(corners[2] - corners[1])))


def leg_bends_mpa(legs: Sequence[Leg], force_n: Floats, long_mm: float, twist_n_mm: float = 0.0) -> float:
    """Return the greatest bending stress of legs, if they bend as those of a ring or of a ladder do.

    What twists all of them pushes each across, about their middle, as a group of bolts (textbook).

    >>> leg = Leg(area_mm2=30.0, centre_mm=np.array([17.5, 0.0]), second_mm4=np.diag([62.5, 90.0]), reach_mm=2.5)
    >>> round(leg_bends_mpa([leg, leg], np.array([0.0, 0.0, 60.0]), 30.0), 2)  # 30 N times 17.5 mm times 2 / π over 25
    13.37
    """
    whole_mm2, most = sum(leg.area_mm2 for leg in legs), 0.0
    across_n = float(np.linalg.norm(force_n[:2]))
    middle = np.sum([leg.area_mm2 * leg.centre_mm for leg in legs], axis=0) / whole_mm2
    polar = max(sum(leg.area_mm2 * float(np.sum((leg.centre_mm - middle) ** 2)) for leg in legs), 1e-9)
    for leg in legs:
        arm = leg.centre_mm - middle
        arm_mm = float(np.linalg.norm(arm))
        turned_n = abs(twist_n_mm) * leg.area_mm2 * arm_mm / polar
        share, off_mm = leg.area_mm2 / whole_mm2, float(np.linalg.norm(leg.centre_mm))
        for moment, way in (
            (RING_SHARE * abs(float(force_n[2])) * share * off_mm, leg.centre_mm / max(off_mm, 1e-9)),
            (across_n * share * long_mm / 2.0, force_n[:2] / max(across_n, 1e-9)),
            (turned_n * long_mm / 2.0, np.array([-arm[1], arm[0]]) / max(arm_mm, 1e-9)),
        ):
            if moment > 0.0:
                most = max(most, moment * leg.reach_mm / float(way @ leg.second_mm4 @ way))
    return most


def legs_share(
    shape: shapely.Geometry,
    cut: Cut,
    loads: Sequence[PartLoad],
    stuff: BeamStuff,
    long_mm: float,
    *,
    twists: bool = True,
) -> float:
    """Return the root of the index of legs side by side that bend by themselves; 0 without any.

    ``twists`` is whether what a twisting moment bends counts: not where that is in the stress.
    """
    if long_mm <= 0.0:
        return 0.0
    legs = [leg_of(printed_zones(one, cut, stuff, 1.0)) for one in polygons_of(shape)]
    middle = np.average([leg.centre_mm for leg in legs], axis=0, weights=[leg.area_mm2 for leg in legs])
    force, moment = summed(cut, loads, cut.at_mm + middle @ cut.axes[:2])
    normal = cut.axes[2]
    bent = leg_bends_mpa(legs, force, long_mm, float(moment[2]) if twists else 0.0) * np.outer(normal, normal)
    return math.sqrt(float(index(bent, np.array(stuff.normal), stuff.strengths)))
