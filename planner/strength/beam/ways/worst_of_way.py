"""One way of a part: every cut along it under every case that asks for it, and what of them must be kept."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength.beam.curved.curved_way import Curve, limbs_of
from planner.strength.beam.cut_forces import Cut, beyond
from planner.strength.beam.cut_pieces import Pieces
from planner.strength.beam.cut_shapes import printed_zones
from planner.strength.beam.cut_stress import Zoned, judged_zones
from planner.strength.beam.end_to_end import thin_mm
from planner.strength.beam.entering_strips import Strip, strips_of_cut
from planner.strength.beam.legs.portal import Legs, Portal, joined_legs, legs_at, portal_of
from planner.strength.beam.legs.side_by_side import legs_share, stand_apart
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.skin_and_core import Zones
from planner.strength.criterion import index
from planner.strength.loads.part_load import PartLoad

Floats = NDArray[np.float64]
Way = tuple[Vec3, Vec3]
Cuts = Sequence[tuple[Cut, shapely.Geometry, Pieces]]
Loads = tuple[PartLoad, ...]
FEWEST_MM2 = 0.05
"""A smaller cut is the edge of a part."""
PATCH = 0.5
SLIVER = 0.5
"""Cuts nearer to where a load enters than half the side of a square of the way's largest cut, and than they are thin,
are left out where they are smaller than half of it: they take off a corner, where no stress is that of a beam
(Saint-Venant's principle, textbook; both shares without source). A thin leg of a bulky part is no corner."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Judged:
    """One cut under one case; ``case_k`` counts among those that ask for the way, ``number`` among all cuts of it."""

    number: int
    index_ratio: float
    case_k: int
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
    share: float
    largest_mm2: float
    whole_share: float
    """Root of the index, if slender legs bend by themselves."""

    @property
    def worse(self) -> tuple[float, float]:
        """What tells the worst cut: where a plate takes as much all the way from its load, its root is told."""
        return float(f"{self.index_ratio:.5g}"), self.spread_mm

    def at(self, stuff: BeamStuff, factor: float) -> Zoned:
        """Return the cut judged with its skin as printed at a scale."""
        zones = printed_zones(self.shape, self.cut, stuff, factor)
        portal = portal_of(zones, self.between)
        return judged_zones(zones, self.cut, self.loads, stuff, self.strips, self.curve, portal)


@dataclass(frozen=True, slots=True, kw_only=True)
class WayWorst:
    """What of the cuts of one way, or of some of them, tells what the weakest cut of a part must know.

    Parameters
    ----------
    number
        Of the worst cut, as :func:`along` counts them: it is judged again where it is the worst of all ways.
    worse
        By what it is the worst.
    case_index
        The greatest index under each case that asks for the way.
    whole_share
        The greatest root of the index, if slender legs bend by themselves.
    lying_index
        The greatest index with layers as they lie, then with each of the other directions down.
    cuts_n
        How many cuts were judged.
    notched_share
        The greatest root of the index that notches may raise it to.
    """

    number: int
    worse: tuple[float, float]
    case_index: tuple[float, ...]
    whole_share: float
    lying_index: tuple[float, ...]
    cuts_n: int
    notched_share: float = 0.0


def worst_of(
    found: Iterable[Judged], cases_n: int, stuff: BeamStuff, downs: Sequence[Vec3]
) -> tuple[WayWorst, Judged] | None:
    """Return what some cuts come to, and the worst of them; None where there are none."""
    every = list(found)
    if not every:
        return None
    worst, most = max(every, key=lambda one: one.worse), np.zeros(cases_n)
    for one in every:
        most[one.case_k] = max(most[one.case_k], one.index_ratio)
    tensors = np.concatenate([one.tensors_mpa for one in every])
    normals = (np.array(stuff.normal), *(-np.array(down) for down in downs))
    return WayWorst(
        number=worst.number,
        worse=worst.worse,
        case_index=tuple(float(one) for one in most),
        whole_share=max(one.whole_share for one in every),
        lying_index=tuple(float(index(tensors, normal, stuff.strengths).max()) for normal in normals),
        cuts_n=len(every),
    ), worst


def along(
    solid: Solid,
    cuts: Cuts,
    way: Way,
    loads: Sequence[Loads],
    stuff: BeamStuff,
    most_mm2: float = 0.0,
    only: int | None = None,
    legs: Sequence[Legs] | None = None,
) -> Iterator[Judged]:
    """Yield every cut of a way under every case that asks for it, or ``only`` the one of a number.

    ``loads`` are those of each case, ``most_mm2`` is the way's largest cut that is known, ``legs`` are its joined legs
    where these cuts are too few to tell.
    """
    start, end = np.array(way[0]), np.array(way[1])
    largest = max(most_mm2, *(shape.area for _, shape, _ in cuts), FEWEST_MM2)
    apart, number = stand_apart(cuts), -1
    limbs = limbs_of(solid, way) if cuts else None
    joined = joined_legs(cuts, solid.vertices_mm) if legs is None else legs
    for place_n, (cut, shape, pieces) in enumerate(cuts):
        share = float(np.linalg.norm(cut.at_mm - start) / np.linalg.norm(end - start))
        known: dict[bytes, tuple[Zones, Curve | None, Portal | None]] = {}
        between = legs_at(joined, cut)
        for case_k, each in enumerate(loads):
            for mine, pressing in pieces.pressed(cut, each) if pieces.each else [(shape, beyond(cut, each))]:
                if len(pressing) == len(each) and pieces.each:
                    continue  # what presses it is in balance by itself
                if is_no_section(cut, mine, pressing, largest):
                    continue
                number += 1
                if only is not None and number != only:
                    continue
                key = mine.wkb
                if key not in known:
                    zones = printed_zones(mine, cut, stuff, 1.0)
                    known[key] = zones, limbs.curve(cut, mine) if limbs else None, portal_of(zones, between)
                zones, curve, portal = known[key]
                strips = tuple(strips_of_cut(cut, zones, pressing, () if pieces.each else each))
                found = judged_zones(zones, cut, pressing, stuff, strips, curve, portal)
                bends = legs_share(mine, cut, pressing, stuff, apart.get(place_n, 0.0), twists=portal is None)
                yield Judged(
                    number=number,
                    index_ratio=found.index_ratio,
                    case_k=case_k,
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
