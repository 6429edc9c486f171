"""The beam pass: a part is cut across the ways of its loads, and the weakest cut is found for every scale."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from planner.cache import kept, key_of
from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength.beam.cut_shapes import cuts_of_way
from planner.strength.beam.end_to_end import end_to_end, leaves
from planner.strength.beam.legs.portal import joined_legs
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.necks import necks_of
from planner.strength.beam.ways.leaning_limbs import along_limbs, of_one_limb
from planner.strength.beam.ways.notched import notched_share
from planner.strength.beam.ways.worst_of_way import Cuts, Loads, Way, WayWorst, along, worst_of
from planner.strength.criterion import torn
from planner.strength.loads.part_load import LoadCase, as_vec

Floats = NDArray[np.float64]
BEAM_VERSION = 31
"""Raised whenever a result changes, so that kept ones are not trusted."""
KNOTS = (0.4, 0.6, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5)
"""Scales at which the skin is laid again; between them its part in the section goes straight."""
CUTS_N = 24
LIMB_CUTS_N = 8
CLOSER_N = 6
"""Cuts along each way, along a quarter of it that leans, and between the neighbours of the worst of all."""
END = 0.002
"""How far from the ends of a way the first and last cut lie, as a share of it."""
KEPT_N = 256
"""So many answers are kept in memory: trying remedies asks for the same parts again and again."""


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
    notch_ratio
        How many times the share it might be at bores, fillets and corners, which cuts do not see; 1 without any.
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
    notch_ratio: float = 1.0
    spread_mm: float = 0.0
    lying: tuple[tuple[Vec3, float], ...] = ()

    def stress_at_mpa(self, share_percent: float) -> float:
        """Return the stress at a scale at which the share is known: both grow alike, as the loads stay the same.

        Loads that cancel out, as at an eye through which a cord runs straight, leave neither stress nor share.
        """
        drawn_percent = self.share_percent[KNOTS.index(1.0)]
        return self.stress_mpa * share_percent / drawn_percent if drawn_percent > 0.0 else 0.0


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
    return key_of(BEAM_VERSION, *_solid(solid), cases, stuff, KNOTS, downs)


def _solid(solid: Solid) -> tuple[str, bytes, bytes]:
    """Return what tells a solid from all others."""
    return solid.sha256, solid.vertices_mm.tobytes(), solid.faces.tobytes()


def _weakest(solid: Solid, cases: Sequence[LoadCase], stuff: BeamStuff, downs: tuple[Vec3, ...]) -> Weakest | None:
    """Cut and judge every way, then once more between the neighbours of the worst of all."""
    ways = [(one, found) for one in ways_asked(solid, cases, stuff, downs) if (found := one.worst) is not None]
    if not ways:
        return None
    at, told = max(ways, key=lambda each: each[1].worse)
    (worst,) = along(solid, at.cuts, at.way, at.loads, stuff, only=told.number)
    step = (1.0 - 2.0 * END) / (at.cuts_n - 1)
    between = np.linspace(worst.share - step, worst.share + step, CLOSER_N + 2)[1:-1]
    nearer = tuple(float(x) for x in between if END <= x <= 1.0 - END)
    cuts = cuts_of_way(solid, at.way, nearer)
    legs = joined_legs(at.cuts, solid.vertices_mm)
    nearby = along(solid, cuts, at.way, at.loads, stuff, worst.largest_mm2, legs=legs)
    closer = worst_of(nearby, len(at.loads), stuff, downs)
    if closer is not None:
        ways.append((at, closer[0]))
        worst = max((worst, closer[1]), key=lambda one: one.worse)
    knots = tuple(100.0 * worst.at(stuff, s).index_ratio ** 0.5 for s in KNOTS)
    principal = np.linalg.eigvalsh(worst.tensor_mpa)
    return Weakest(
        at_mm=as_vec(worst.place_mm),
        cut_at_mm=as_vec(worst.cut.at_mm),
        normal=as_vec(worst.cut.axes[2]),
        area_mm2=float(worst.shape.area),
        stress_mpa=float(np.abs(principal).max()),
        direction=torn(worst.tensor_mpa, np.array(stuff.normal), stuff.strengths),
        case_n=at.asked[worst.case_k],
        share_percent=knots,
        cuts_n=sum(one.cuts_n for _, one in ways),
        case_shares=_case_shares(ways, len(cases)),
        spread_mm=worst.spread_mm,
        legs_ratio=max(one.whole_share for _, one in ways) / (worst.index_ratio**0.5 or 1.0),
        notch_ratio=max(1.0, *(one.notched_share / (worst.index_ratio**0.5 or 1.0) for _, one in ways)),
        lying=_lying([one.lying_index for _, one in ways], downs),
    )


def _case_shares(ways: Sequence[tuple[WayAsked, WayWorst]], cases_n: int) -> tuple[float, ...]:
    """Return what each load case takes at its own weakest cut, as a share of the worst of all."""
    most = np.zeros(cases_n)
    for way, one in ways:
        for number, found in zip(way.asked, one.case_index, strict=True):
            most[number] = max(most[number], found)
    return tuple(float(x) for x in np.sqrt(most / (most.max() or 1.0)))  # no load at all: no share


def _lying(indices: Sequence[Sequence[float]], downs: Sequence[Vec3]) -> tuple[tuple[Vec3, float], ...]:
    """Return how many times the share it would be with other directions down; the skin is taken as it is now."""
    now, *others = (max(each) for each in zip(*indices, strict=True))
    return tuple((down, (most / now) ** 0.5 if now else 1.0) for down, most in zip(downs, others, strict=True))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WayAsked:
    """One way of a part with the cases that ask for it, and its cuts: what may be judged apart from all other ways."""

    solid: Solid
    way: Way
    asked: tuple[int, ...]
    loads: tuple[Loads, ...]
    stuff: BeamStuff
    downs: tuple[Vec3, ...]
    cuts: Cuts
    cuts_n: int
    """So many places along it were cut."""

    @property
    def key(self) -> str:
        """All that what is found along it hangs on."""
        return key_of(
            BEAM_VERSION, "way", self.way, self.cuts_n, self.loads, self.stuff, self.downs, *_solid(self.solid)
        )

    @property
    def worst(self) -> WayWorst | None:
        """What is found along it: kept, so that several processes may each judge some ways of one part."""
        return kept("strength", self.key, WayWorst | None, self._worst)

    def _worst(self) -> WayWorst | None:
        """Judge all its cuts."""
        every = along(self.solid, self.cuts, self.way, self.loads, self.stuff)
        judged = list(every)
        found = worst_of(judged, len(self.loads), self.stuff, self.downs)
        if found is None:
            return None
        apart_mm = float(np.linalg.norm(np.subtract(*self.way))) / (self.cuts_n - 1)
        return replace(found[0], notched_share=notched_share(self.solid, judged, self.loads, self.stuff, apart_mm))


def ways_asked(
    solid: Solid, cases: Sequence[LoadCase], stuff: BeamStuff, downs: tuple[Vec3, ...]
) -> Iterator[WayAsked]:
    """Yield all ways that a part is cut along under its cases."""
    loads = [tuple(case.balanced) for case in cases]
    for way, asked, cuts, cuts_n in cuts_of_all_ways(solid, cases):
        yield WayAsked(
            solid=solid,
            way=way,
            asked=tuple(asked),
            loads=tuple(loads[number] for number in asked),
            stuff=stuff,
            downs=downs,
            cuts=cuts,
            cuts_n=cuts_n,
        )


def ways_of(cases: Sequence[LoadCase]) -> dict[Way, list[int]]:
    """Return the ways that cases ask for, each with the numbers of those cases."""
    ways = dict[Way, list[int]]()
    for number, case in enumerate(cases):
        for way in case.ways:
            ways.setdefault(way, []).append(number)
    return ways


def cuts_of_all_ways(solid: Solid, cases: Sequence[LoadCase]) -> Iterator[tuple[Way, list[int], Cuts, int]]:
    """Yield all ways that cases are cut along, with the cases that ask for each, its cuts, and how many were tried.

    The part's own three axes come last, for those cases whose ways leave it.
    """
    shares, of_limb = (tuple(float(x) for x in np.linspace(END, 1.0 - END, n)) for n in (CUTS_N, LIMB_CUTS_N))
    left = set[int]()
    for way, asked in ways_of(cases).items():
        necks = necks_of(solid, way, shares)
        cuts = cuts_of_way(solid, way, shares, necks)
        left |= set(asked) if leaves(cuts, CUTS_N + len(necks)) else set()
        sections, chords = along_limbs(cuts, way)
        yield way, asked, sections, CUTS_N
        for chord in chords:
            cuts = cuts_of_way(solid, chord, of_limb, necks_of(solid, chord, of_limb))
            yield chord, asked, of_one_limb(cuts), LIMB_CUTS_N
    for way in end_to_end(solid) if left else ():
        yield way, sorted(left), cuts_of_way(solid, way, shares, necks_of(solid, way, shares)), CUTS_N
