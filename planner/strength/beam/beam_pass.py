"""The beam pass: a part is cut across the ways of its loads, and the weakest cut is found for every scale."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.cache import kept, key_of
from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength.beam.curved.curved_way import Curve, limbs_of
from planner.strength.beam.cut_forces import Cut, beyond
from planner.strength.beam.cut_pieces import Pieces
from planner.strength.beam.cut_shapes import cuts_of_way, printed_zones
from planner.strength.beam.cut_stress import Zoned, judged_zones
from planner.strength.beam.end_to_end import end_to_end, leaves, thin_mm
from planner.strength.beam.entering_strips import Strip, strips_of_cut
from planner.strength.beam.legs.portal import Legs, Portal, joined_legs, legs_at, portal_of
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.side_by_side import legs_share, stand_apart
from planner.strength.beam.skin_and_core import Zones
from planner.strength.criterion import index, torn
from planner.strength.loads.part_load import LoadCase, PartLoad, as_vec

Floats = NDArray[np.float64]
BEAM_VERSION = 18
"""Raised whenever a result changes, so that kept ones are not trusted."""
KNOTS = (0.4, 0.6, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5)
"""Scales at which the skin is laid again; between them its part in the section goes straight."""
CUTS_N = 24
CLOSER_N = 6
"""Cuts along each way, and between the neighbours of the worst of all."""
END = 0.002
"""How far from the ends of a way the first and last cut lie, as a share of it."""
KEPT_N = 256
"""So many answers are kept in memory: trying remedies asks for the same parts again and again."""
FEWEST_MM2 = 0.05
"""A smaller cut is the edge of a part."""
PATCH = 0.5
SLIVER = 0.5
"""Cuts nearer to where a load enters than half the side of a square of the way's largest cut, and than they are thin,
are left out where they are smaller than half of it: they take off a corner, where no stress is that of a beam
(Saint-Venant's principle, textbook; both shares without source). A thin leg of a bulky part is no corner."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weakest:
    """The weakest cut of a part.

    Parameters
    ----------
    at_mm
        The place in it that is nearest to breaking, in the drawn mesh.
    cut_at_mm, normal
        The cut's own point and normal.
    area_mm2
        Of the cut, as drawn.
    stress_mpa
        The greatest principal stress there, by size, at 100 %.
    direction
        Whether layers are torn in their plane, or apart.
    case_n
        Which load case does it.
    share_percent
        Of the low strength, at each of the knots, times the square of the scale: straight between them.
    cuts_n
        How many cuts were judged.
    case_shares
        Of the share, what each load case takes at its own weakest cut.
    legs_ratio
        How many times the share it might be where slender legs side by side bend by themselves; 1 without any.
    spread_mm
        How much of the cut's width takes up the load where that enters over less; 0 where all of it does.
    lying
        Drawn directions that might face the bed, and how many times the share it would be with each of them down.
    """

    at_mm: Vec3
    cut_at_mm: Vec3
    normal: Vec3
    area_mm2: float
    stress_mpa: float
    direction: Literal["along", "across"]
    case_n: int
    share_percent: tuple[float, ...]
    cuts_n: int
    case_shares: tuple[float, ...] = ()
    legs_ratio: float = 1.0
    spread_mm: float = 0.0
    lying: tuple[tuple[Vec3, float], ...] = ()

    def stress_at_mpa(self, share_percent: float) -> float:
        """Return the stress at a scale at which the share is known: both grow alike, as the loads stay the same."""
        return self.stress_mpa * share_percent / self.share_percent[KNOTS.index(1.0)]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Judged:
    """One cut under one case."""

    index_ratio: float
    case_n: int
    cut: Cut
    shape: shapely.Geometry
    loads: tuple[PartLoad, ...]
    strips: tuple[Strip, ...]
    curve: Curve | None
    between: Legs
    spread_mm: float
    place_mm: Floats
    tensor_mpa: Floats
    tensors_mpa: Floats
    way: tuple[Vec3, Vec3]
    share: float
    largest_mm2: float
    whole_share: float
    """Root of the index, if slender legs bend by themselves."""


@lru_cache(maxsize=KEPT_N)
def weakest(
    solid: Solid, cases: tuple[LoadCase, ...], stuff: BeamStuff, downs: tuple[Vec3, ...] = ()
) -> Weakest | None:
    """Return the weakest cut of a part under all its load cases; None where no cut carries anything.

    ``downs`` are drawn directions that might face the bed instead: the same stresses are judged with layers so.

    Forces do not grow with the part: areas go with the square of the scale and moduli with its cube, arms with the
    scale, so that stress goes with one over its square, but for the skin, whose thickness is laid again at every knot.
    """
    key = weakest_key(solid, cases, stuff, downs)
    return kept("strength", key, Weakest | None, lambda: _weakest(solid, cases, stuff, downs))


def weakest_key(solid: Solid, cases: tuple[LoadCase, ...], stuff: BeamStuff, downs: tuple[Vec3, ...]) -> str:
    """Return all that the weakest cut of a part hangs on."""
    facts = (solid.sha256, solid.vertices_mm.tobytes(), solid.faces.tobytes(), cases, stuff, KNOTS, downs)
    return key_of(BEAM_VERSION, *facts)


def _weakest(solid: Solid, cases: Sequence[LoadCase], stuff: BeamStuff, downs: Sequence[Vec3]) -> Weakest | None:
    """Cut and judge, then once more between the neighbours of the worst."""
    loads = [tuple(case.balanced) for case in cases]
    ways, found = dict[_Way, tuple[list[int], tuple[Legs, ...]]](), list[_Judged]()
    for way, asked, cuts in cuts_of_all_ways(solid, cases):
        ways[way] = asked, joined_legs(cuts, solid.vertices_mm)
        found += _along(solid, cuts, way, ways[way], loads, stuff)
    if not found:
        return None
    worst = max(found, key=_worse)
    step = (1.0 - 2.0 * END) / (CUTS_N - 1)
    between = np.linspace(worst.share - step, worst.share + step, CLOSER_N + 2)[1:-1]
    nearer = tuple(float(x) for x in between if END <= x <= 1.0 - END)
    cuts = cuts_of_way(solid, worst.way, nearer)
    closer = list(_along(solid, cuts, worst.way, ways[worst.way], loads, stuff, worst.largest_mm2))
    worst = max((worst, *closer), key=_worse)
    knots = tuple(100.0 * _again(worst, stuff, s).index_ratio ** 0.5 for s in KNOTS)
    principal = np.linalg.eigvalsh(worst.tensor_mpa)
    return Weakest(
        at_mm=as_vec(worst.place_mm),
        cut_at_mm=as_vec(worst.cut.at_mm),
        normal=as_vec(worst.cut.axes[2]),
        area_mm2=float(worst.shape.area),
        stress_mpa=float(np.abs(principal).max()),
        direction=torn(worst.tensor_mpa, np.array(stuff.normal), stuff.strengths),
        case_n=worst.case_n,
        share_percent=knots,
        cuts_n=len(found) + len(closer),
        case_shares=_case_shares([*found, *closer], len(cases)),
        spread_mm=worst.spread_mm,
        legs_ratio=max(one.whole_share for one in [*found, *closer]) / (worst.index_ratio**0.5 or 1.0),
        lying=_lying([*found, *closer], stuff, downs),
    )


def _again(one: _Judged, stuff: BeamStuff, factor: float) -> Zoned:
    """Return a cut judged with its skin as printed at a scale."""
    zones = printed_zones(one.shape, one.cut, stuff, factor)
    return judged_zones(zones, one.cut, one.loads, stuff, one.strips, one.curve, portal_of(zones, one.between))


def _worse(one: _Judged) -> tuple[float, float]:
    """Return what tells the worst cut: where a plate takes as much all the way from its load, its root is told."""
    return float(f"{one.index_ratio:.5g}"), one.spread_mm


def _case_shares(found: Sequence[_Judged], cases_n: int) -> tuple[float, ...]:
    """Return what each load case takes at its own weakest cut, as a share of the worst of all."""
    most = np.zeros(cases_n)
    for one in found:
        most[one.case_n] = max(most[one.case_n], one.index_ratio)
    return tuple(float(x) for x in np.sqrt(most / (most.max() or 1.0)))  # no load at all: no share


def _lying(found: Sequence[_Judged], stuff: BeamStuff, downs: Sequence[Vec3]) -> tuple[tuple[Vec3, float], ...]:
    """Return how many times the share it would be with other directions down; the skin is taken as it is now."""
    every = np.concatenate([one.tensors_mpa for one in found])

    def most(normal: Floats) -> float:
        return float(index(every, normal, stuff.strengths).max())

    now = most(np.array(stuff.normal))
    return tuple((down, (most(-np.array(down)) / now) ** 0.5) for down in downs)


_Way = tuple[Vec3, Vec3]
_Cuts = Sequence[tuple[Cut, shapely.Geometry, Pieces]]


def cuts_of_all_ways(solid: Solid, cases: Sequence[LoadCase]) -> Iterator[tuple[_Way, list[int], _Cuts]]:
    """Yield all ways that cases are cut along, each with the cases that ask for it and its cuts.

    The part's own three axes come last, for those cases whose ways leave it.
    """
    shares = tuple(float(x) for x in np.linspace(END, 1.0 - END, CUTS_N))
    ways, left = dict[_Way, list[int]](), set[int]()
    for number, case in enumerate(cases):
        for way in case.ways:
            ways.setdefault(way, []).append(number)
    for way, asked in ways.items():
        cuts = cuts_of_way(solid, way, shares)
        left |= set(asked) if leaves(cuts, CUTS_N) else set()
        yield way, asked, cuts
    for way in end_to_end(solid) if left else ():
        yield way, sorted(left), cuts_of_way(solid, way, shares)


def _along(
    solid: Solid,
    cuts: _Cuts,
    way: _Way,
    cases: tuple[Sequence[int], Sequence[Legs]],
    loads: Sequence[tuple[PartLoad, ...]],
    stuff: BeamStuff,
    most_mm2: float = 0.0,
) -> Iterator[_Judged]:
    """Yield every cut of a way under every case that asks for it; ``most_mm2`` is its largest that is known.

    ``cases`` are those that ask, and the legs of the way that are joined.
    """
    asked, legs = cases
    start, end = np.array(way[0]), np.array(way[1])
    largest = max(most_mm2, *(shape.area for _, shape, _ in cuts), FEWEST_MM2)
    apart = stand_apart(cuts)
    limbs = limbs_of(solid, way) if cuts else None
    for place_n, (cut, shape, pieces) in enumerate(cuts):
        share = float(np.linalg.norm(cut.at_mm - start) / np.linalg.norm(end - start))
        known: dict[bytes, tuple[Zones, Curve | None, Portal | None]] = {}
        between = legs_at(legs, cut)
        for number in asked:
            each = loads[number]
            for mine, pressing in pieces.pressed(cut, each) if pieces.each else [(shape, beyond(cut, each))]:
                if len(pressing) == len(each) and pieces.each:
                    continue  # what presses it is in balance by itself
                if is_no_section(cut, mine, pressing, largest):
                    continue
                key = mine.wkb
                if key not in known:
                    zones = printed_zones(mine, cut, stuff, 1.0)
                    known[key] = zones, limbs.curve(cut, mine) if limbs else None, portal_of(zones, between)
                zones, curve, portal = known[key]
                strips = tuple(strips_of_cut(cut, zones, pressing, () if pieces.each else each))
                found = judged_zones(zones, cut, pressing, stuff, strips, curve, portal)
                bends = legs_share(mine, cut, pressing, stuff, apart.get(place_n, 0.0), twists=portal is None)
                yield _Judged(
                    index_ratio=found.index_ratio,
                    case_n=number,
                    cut=cut,
                    shape=mine,
                    loads=tuple(pressing),
                    strips=strips,
                    curve=curve,
                    between=between,
                    spread_mm=found.spread_mm,
                    place_mm=found.place_mm,
                    tensor_mpa=found.tensor_mpa,
                    tensors_mpa=found.tensors_mpa,
                    way=way,
                    share=share,
                    largest_mm2=largest,
                    whole_share=found.index_ratio**0.5 + bends,
                )


def is_no_section(cut: Cut, shape: shapely.Geometry, loads: Sequence[PartLoad], largest_mm2: float) -> bool:
    """Say whether a cut is no section of a beam: a part's edge, or a corner where a load enters."""
    sliver = shape.area < SLIVER * largest_mm2
    return bool(shape.area < FEWEST_MM2 or (sliver and _close(cut, loads, PATCH * largest_mm2**0.5, shape)))


def _close(cut: Cut, loads: Sequence[PartLoad], most_mm: float, shape: shapely.Geometry) -> bool:
    """Return whether a cut lies so near to where a load enters that it takes off a corner."""
    reach_mm = min(most_mm, thin_mm(shape))
    return any(abs(float((np.array(one.at_mm) - cut.at_mm) @ cut.axes[2])) < reach_mm for one in loads)
