"""A first look at a part under its loads: about what share its weakest cut takes, in a tenth of the time of all cuts.

Whether a load may lay a part another way is often far from open: a lever that takes a sixth of its strength is not
stood on end, which costs hours. So a few cuts of every way are judged as all would be, those that a plain beam's
formula says are worst; what they may miss of the worst of all cuts is covered by ``MISSED``.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from planner.cache import kept, key_of
from planner.cores import ahead
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

LOOK_VERSION = 2
"""Raised whenever a result changes, so that kept ones are not trusted."""
PLACES_N = 8
"""So many places of a way are cut at first, beside its necks."""
TRIED_N = 3
"""So many of them may be judged, the worst by a plain beam's formula first, until one is a section that carries."""
TWISTS = 5.0
"""Shear of torsion in a square of 1 mm², in MPa for 1 N mm: 4.8 (textbook)."""
MISSED = 3.0
"""The worst of all cuts takes no more than so many times what the first look tells: of 22 loaded parts of ours it
took at most 1.4 times as much, of one slide 1.92, where leaning limbs and places between are cut, too; no source."""
Look = tuple[Solid, tuple[LoadCase, ...], BeamStuff, float]
"""What :func:`share_about` is asked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Along:
    """What a look along a way tells: the share of its worst place, None without one; whether it leaves the part."""

    share: float | None
    leaves: bool


def look_ahead(looks: Iterable[Look]) -> None:
    """Look at parts on all cores, way by way: one bulky part may take longer than all others together."""
    every = sorted(looks, key=lambda look: -look[0].triangles_n)
    ahead(
        lambda one: _along(*one),
        [(look, way, tuple(asked)) for look in every for way, asked in ways_of(look[1]).items()],
    )
    ahead(lambda one: _along(*one), [(look, way, left) for look in every for way, left in _ways_left(look)])


def share_about(solid: Solid, cases: tuple[LoadCase, ...], stuff: BeamStuff, factor: float) -> float | None:
    """Return about what share of its low strength a part takes at a scale; None where nothing told it.

    The worst places of every way are looked at, and those of the part's own axes for cases whose ways leave it.
    """
    look = solid, cases, stuff, factor
    ways = [*ways_of(cases).items(), *_ways_left(look)]
    found = [_along(look, way, tuple(asked)).share for way, asked in ways]
    return max((share for share in found if share is not None), default=None)


def _ways_left(look: Look) -> Iterator[tuple[Way, tuple[int, ...]]]:
    """Yield the part's own axes with the cases whose ways leave it; nothing where none does."""
    solid, cases = look[:2]
    ways = ways_of(cases).items()
    left = {number for way, asked in ways if _along(look, way, tuple(asked)).leaves for number in asked}
    yield from ((way, tuple(sorted(left))) for way in (end_to_end(solid) if left else ()))


def _along(look: Look, way: Way, asked: tuple[int, ...]) -> Along:
    """Look along one way under the cases that ask for it: kept, so that several processes may look at one part."""
    solid, cases, stuff, factor = look
    key = key_of(LOOK_VERSION, factor, weakest_key(solid, cases, stuff, ()), way, asked)
    return kept("strength", key, Along, lambda: _looked(look, way, asked))


def _looked(look: Look, way: Way, asked: tuple[int, ...]) -> Along:
    """Cut a way at some places and its necks, and judge the worst."""
    solid, cases, stuff, factor = look
    shares, finer = (tuple(float(x) for x in np.linspace(END, 1.0 - END, n)) for n in (PLACES_N, CUTS_N))
    necks = necks_of(solid, way, finer)
    cuts = cuts_of_way(solid, way, shares, necks)
    outside = leaves(cuts, PLACES_N + len(necks))
    loads = [tuple(cases[number].balanced) for number in asked]
    rough_mpa = [_rough_mpa(one, loads) for one in cuts]
    largest_mm2 = max((shape.area for _, shape, _ in cuts), default=0.0)
    legs = joined_legs(cuts, solid.vertices_mm)
    for n in np.argsort(rough_mpa)[::-1][:TRIED_N]:
        judged = along(solid, [cuts[n]], way, loads, stuff, largest_mm2, legs=legs)
        worse = max(judged, key=lambda one: one.index_ratio, default=None)
        if worse is not None:
            return Along(share=worse.at(stuff, factor).index_ratio ** 0.5 / factor**2, leaves=outside)
    return Along(share=None, leaves=outside)


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
