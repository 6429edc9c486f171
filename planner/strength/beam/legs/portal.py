"""Torsion of legs between two ends that join them: legs shear across as a portal does, and twist little by themselves.

Two ends that turn against each other by an angle carry each leg across by the angle times its arm, so that it bends as
a beam fixed at both ends, by 12 E I / L³, and twist it, by G J / L (Roark's Formulas for Stress and Strain, frames,
from memory). Short legs far apart, as beside a slot for webbing, take nearly all of the moment by bending. Ends that
give way leave less to bending; so the two are bounded apart: what bends is taken as between stiff ends, what twists as
between ends that twist like the legs, by 1 / (1 + 3 E I D / (G J L)) of it with D from leg to leg. Where an end is
thinner than the legs, nothing is told, and they take all of the moment by twisting, as before.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.strength.beam.cut_forces import Cut
from planner.strength.beam.cut_pieces import Pieces
from planner.strength.beam.flat_moments import polygons_of
from planner.strength.beam.legs.side_by_side import thick_mm
from planner.strength.beam.skin_and_core import Zones

Floats = NDArray[np.float64]
E_OVER_G = 2.6
"""2 (1 + v) with v = 0.3: a plastic that gives way more aside has somewhat more, which makes portals stiffer."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Portal:
    """What a twisting moment of 1 N mm does to legs between joined ends.

    Parameters
    ----------
    twist_share
        Of the shear that the legs would have if they took all of it by twisting, at most.
    corner_mpa
        Bending stress at each corner of the section (n,), at the ends of the legs, at most.
    """

    twist_share: float
    corner_mpa: Floats


@dataclass(frozen=True, slots=True)
class Legs:
    """Where legs begin and end at most, along the direction of a way, and how long the shorter end is at least."""

    low_mm: float = 0.0
    high_mm: float = 0.0
    end_mm: float = 0.0

    @property
    def long_mm(self) -> float:
        """How long they are at most."""
        return self.high_mm - self.low_mm


NO_LEGS = Legs()


def joined_legs(cuts: Sequence[tuple[Cut, shapely.Geometry, Pieces]], points_mm: Floats) -> tuple[Legs, ...]:
    """Return the legs of a way that are joined at both of their ends; ``points_mm`` are the corners of the part.

    From the last cut before them that is in one piece to the first one after them; none where the way ends before.
    """
    if not cuts:
        return ()
    counts = [0 if pieces.each else len(polygons_of(shape)) for _, shape, pieces in cuts]
    starts = [n for n in range(len(cuts)) if n == 0 or counts[n] != counts[n - 1]]
    at = [_along_mm(cut) for cut, _, _ in cuts]
    reach = points_mm @ cuts[0][0].axes[2]
    found = []
    for k in range(1, len(starts) - 1):
        first, after = starts[k], starts[k + 1]
        if counts[first] < 2 or counts[first - 1] != 1 or counts[after] != 1:
            continue
        before_mm = at[starts[k - 1]] if k > 1 else float(reach.min())
        beyond_mm = at[starts[k + 2] - 1] if k + 2 < len(starts) else float(reach.max())
        end_mm = min(at[first - 1] - before_mm, beyond_mm - at[after])
        found.append(Legs(at[first - 1], at[after], end_mm))
    return tuple(found)


def legs_at(legs: Sequence[Legs], cut: Cut) -> Legs:
    """Return the legs that a cut goes through."""
    at = _along_mm(cut)
    return next((one for one in legs if one.low_mm < at < one.high_mm), NO_LEGS)


def _along_mm(cut: Cut) -> float:
    """Return where a cut lies along its own normal."""
    return float(cut.at_mm @ cut.axes[2])


def portal_of(zones: Zones, between: Legs) -> Portal | None:
    """Return what twists legs between joined ends; None where a section is in one piece, or an end is thin."""
    polygons, long_mm = polygons_of(zones.whole), between.long_mm
    if len(polygons) < 2 or long_mm <= 0.0 or between.end_mm < max(map(thick_mm, polygons)):
        return None
    legs = [Zones(whole=one, core=zones.core.intersection(one), core_share=zones.core_share) for one in polygons]
    arms = np.array([leg.moments.centre_mm - zones.moments.centre_mm for leg in legs])
    ways = np.column_stack([-arms[:, 1], arms[:, 0]])
    long = np.linalg.norm(ways, axis=1)
    ways /= np.maximum(long, 1e-9)[:, None]
    stiff = np.array([float(way @ leg.moments.about_centre_mm4 @ way) for leg, way in zip(legs, ways, strict=True)])
    by_bending = 12.0 * E_OVER_G / long_mm**2 * float((stiff * long**2).sum())
    by_twisting = zones.torsion.constant_mm4
    if by_bending <= 0.0:
        return None
    bent = by_bending / (by_bending + by_twisting)
    across = bent * long / float((stiff * long**2).sum())  # over the stiffness of each: a leg at the centre has none
    corners = zones.corners_mm
    mine = np.array([[one.distance(shapely.Point(corner)) for one in polygons] for corner in corners]).argmin(axis=1)
    centres = np.array([leg.moments.centre_mm for leg in legs])
    off = np.abs(((corners - centres[mine]) * ways[mine]).sum(axis=1))
    apart_mm = float(np.linalg.norm(centres[:, None] - centres[None], axis=2).max())
    gives = 3.0 * E_OVER_G * float(stiff.sum()) * apart_mm / (by_twisting * long_mm)
    return Portal(
        twist_share=by_twisting / (by_twisting + by_bending / (1.0 + gives)),
        corner_mpa=(across * long_mm / 2.0)[mine] * off,
    )
