"""A first look at a part under its loads: about what share its weakest cut takes, in a tenth of the time of all cuts.

Whether a load may lay a part another way is often far from open: a lever that takes a sixth of its strength is not
stood on end, which costs hours. So a few cuts of every way are judged as all would be, those that a plain beam's
formula says are worst; what they may miss of the worst of all cuts is covered by ``MISSED``.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from planner.cache import kept, key_of
from planner.mesh import Solid
from planner.strength.beam.beam_pass import CUTS_N, END, ways_of, weakest_key
from planner.strength.beam.cut_forces import Cut, beyond
from planner.strength.beam.cut_pieces import Pieces
from planner.strength.beam.cut_shapes import cuts_of_way
from planner.strength.beam.end_to_end import end_to_end, leaves
from planner.strength.beam.entering_strips import linear
from planner.strength.beam.legs.portal import joined_legs
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.necks import necks_of
from planner.strength.beam.skin_and_core import EMPTY, Zones
from planner.strength.beam.ways.worst_of_way import FEWEST_MM2, Loads, Way, along
from planner.strength.loads.part_load import LoadCase

LOOK_VERSION = 1
"""Raised whenever a result changes, so that kept ones are not trusted."""
PLACES_N = 8
"""So many places of a way are cut at first, beside its necks."""
JUDGED_N = 3
"""So many of them are judged: the worst by a plain beam's formula."""
TWISTS = 5.0
"""Shear of torsion in a square of 1 mm², in MPa for 1 N mm: 4.8 (textbook)."""
MISSED = 3.0
"""The worst of all cuts takes no more than so many times what the first look tells: of 17 loaded parts of ours it took
at most 1.4 times as much, where leaning limbs and places between are cut, too; no source."""
Look = tuple[Solid, tuple[LoadCase, ...], BeamStuff, float]
"""What :func:`share_about` is asked."""


def share_about(solid: Solid, cases: tuple[LoadCase, ...], stuff: BeamStuff, factor: float) -> float | None:
    """Return about what share of its low strength a part takes at a scale; None where nothing told it."""
    key = key_of(LOOK_VERSION, factor, weakest_key(solid, cases, stuff, ()))
    return kept("strength", key, float | None, lambda: _share_about(solid, cases, stuff, factor))


def _share_about(solid: Solid, cases: Sequence[LoadCase], stuff: BeamStuff, factor: float) -> float | None:
    """Look at the worst places of every way, and at those of the part's own axes for cases whose ways leave it."""
    found, left = list[float](), set[int]()
    shares, finer = (tuple(float(x) for x in np.linspace(END, 1.0 - END, n)) for n in (PLACES_N, CUTS_N))

    def look(way: Way, asked: Sequence[int]) -> None:
        necks = necks_of(solid, way, finer)
        cuts = cuts_of_way(solid, way, shares, necks)
        left.update(asked if leaves(cuts, PLACES_N + len(necks)) else ())
        loads = [tuple(cases[number].balanced) for number in asked]
        rough = [_rough_mpa(one, loads) for one in cuts]
        worst = [cuts[n] for n in sorted(np.argsort(rough)[-JUDGED_N:])]
        largest_mm2 = max((shape.area for _, shape, _ in cuts), default=0.0)
        legs = joined_legs(cuts, solid.vertices_mm)
        judged = along(solid, worst, way, loads, stuff, largest_mm2, legs=legs) if worst else iter(())
        worse = max(judged, key=lambda one: one.index_ratio, default=None)
        if worse is not None:
            found.append(worse.at(stuff, factor).index_ratio ** 0.5 / factor**2)

    for way, asked in ways_of(cases).items():
        look(way, asked)
    for way in end_to_end(solid) if left else ():
        look(way, sorted(left))
    return max(found, default=None)


def _rough_mpa(one: tuple[Cut, shapely.Geometry, Pieces], loads: Sequence[Loads]) -> float:
    """Return the greatest stress of pull and bending in a cut taken as solid, under any of some cases (Navier)."""
    cut, shape, pieces = one
    most_mpa = 0.0
    for each in loads:
        for mine, pressing in pieces.pressed(cut, each) if pieces.each else [(shape, beyond(cut, each))]:
            if mine.area >= FEWEST_MM2 and pressing:
                told, twist_n_mm = linear(Zones(whole=mine, core=EMPTY, core_share=1.0), cut, pressing)
                pull_mpa = told.tensors_mpa(shapely.get_coordinates(mine))[:, 2, 2]
                twist_mpa = TWISTS * abs(twist_n_mm) / mine.area**1.5
                most_mpa = max(most_mpa, float(np.abs(pull_mpa).max()) + twist_mpa)
    return most_mpa
