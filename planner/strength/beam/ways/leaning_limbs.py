"""Shorter ways along a limb that leans against the way from its support to its load.

A cut that goes through a limb aslant has less stress square to it than the limb has along itself, by the square of the
cosine (Cauchy, textbook): a quarter of a ring, cut across its chord, showed three quarters of it near its ends. So the
middles of its cuts are joined, and the limb is cut across these shorter lines as well. At such an end of a way the
first cuts go out through the end's own face and leave a corner of the limb: that is no section of it.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.strength.beam.cut_forces import Cut
from planner.strength.beam.cut_pieces import Pieces
from planner.strength.beam.flat_moments import moments_of, polygons_of
from planner.strength.beam.ways.worst_of_way import Cuts, Way
from planner.strength.loads.part_load import as_vec

Floats = NDArray[np.float64]
LEANS_DEG = 20.0
"""A limb that leans by less loses under 12 % of its stress to a slanted cut, and is cut along its way alone."""
ENDS_N = 3
"""So many cuts may be corners at each end."""
CORNER_SHARE = 0.8
"""Less of the next cut's area is a corner's; no source."""
CHORDS_N = 4
"""So many shorter lines: of a quarter of a ring each leans by some 11 degrees at its ends, which loses 4 %."""


def along_limbs(cuts: Cuts, way: Way) -> tuple[Cuts, tuple[Way, ...]]:
    """Return the cuts of a way that are sections, and lines between their middles where these lean against it."""
    middles = _middles_mm(cuts)
    if len(middles) <= CHORDS_N:
        return cuts, ()
    along = np.subtract(way[1], way[0])
    along = along / np.linalg.norm(along)
    ends = middles[np.linspace(0, len(middles) - 1, CHORDS_N + 1).round().astype(int)]
    chords = np.diff(ends, axis=0)
    lean = np.degrees(np.arccos(np.clip(chords @ along / np.linalg.norm(chords, axis=1), -1.0, 1.0)))
    leans = lean > LEANS_DEG
    found = zip(ends[:-1], ends[1:], leans, strict=True)
    first, last = 0, len(cuts)
    while leans[0] and first < ENDS_N and _is_corner(cuts[first], cuts[first + 1]):
        first += 1
    while leans[-1] and last > len(cuts) - ENDS_N and _is_corner(cuts[last - 1], cuts[last - 2]):
        last -= 1
    return cuts[first:last], tuple((as_vec(start), as_vec(end)) for start, end, off in found if off)


def of_one_limb(cuts: Cuts) -> Cuts:
    """Return the cuts that go through one limb alone: across a shorter line another one may be cut anyhow."""
    return [one for one in cuts if len(polygons_of(one[1])) == 1]


def _is_corner(cut: tuple[Cut, shapely.Geometry, Pieces], inner: tuple[Cut, shapely.Geometry, Pieces]) -> bool:
    """Return whether a cut at an end has lost a corner against the next one."""
    return bool(cut[1].area < CORNER_SHARE * inner[1].area)


def _middles_mm(cuts: Cuts) -> Floats:
    """Return the middles (n, 3) of cuts, if all of them go through one piece; none else."""
    if any(pieces.each for _, _, pieces in cuts):
        return np.zeros((0, 3))
    flat: Sequence[Floats] = [moments_of(shape).centre_mm for _, shape, _ in cuts]
    return np.array([cut.at_mm + at @ cut.axes[:2] for (cut, _, _), at in zip(cuts, flat, strict=True)])
