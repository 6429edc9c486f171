"""How far layers may be peeled apart at a face that holds a part: a section along that face, at the face itself.

Cuts go across the way from what holds a part to its load. Where it is held by its underside, what it is held with
goes through a section that lies along the layers, and no cut is parallel to that.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace

import manifold3d
import numpy as np
import shapely
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.job import Job
from planner.mesh import Solid
from planner.strength.beam.cut_forces import Cut, cut_at, summed
from planner.strength.beam.cut_shapes import printed_zones
from planner.strength.beam.cut_stress import stress_in
from planner.strength.beam.flat_moments import moments_of, polygons_of
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.skin_and_core import Zones
from planner.strength.beam.ways.notches import section_at
from planner.strength.criterion import index
from planner.strength.held.elastic_edge import edge_rise, wave_per_mm
from planner.strength.loads.part_load import LoadCase, PartLoad, as_vec

Floats = NDArray[np.float64]
PULLS = ("glued", "fixed")
"""Joints that pull on the face itself; screws, straps and ties hold a part from behind, through its whole thickness."""
FLAT_SHARE = 0.2
"""Boxes that share a body whose thinnest side is so little of the next meet at a face; no source."""
DEEP_MM = 0.1
"""So far inside the face it is cut, and inside its edge the strip above it."""
PARALLEL = 0.966
"""Layers lie along a face whose normal is within 15 degrees of theirs; no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Peel:
    """What a face that holds a part may take, as drawn: a share of the low strength, where, and on which part."""

    share_percent: float
    at_mm: Vec3
    over: str


def faces_of(job: Job, part: str) -> frozenset[str]:
    """Return the other parts that hold a part by what they meet it with."""
    mine = [one for one in job.joints if part in one.between and one.how in PULLS]
    return frozenset(name for one in mine for name in one.between if name != part)


def peel_of(solid: Solid, cases: Sequence[LoadCase], stuff: BeamStuff, over: Collection[str]) -> Peel | None:
    """Return the most that any face takes under any case; None where no face holds it, or its mesh is not sound."""
    body = solid.manifold
    if not over or body is None:
        return None
    sections: dict[tuple[str, Vec3], tuple[Cut, Zones] | None] = {}
    found: list[Peel] = []
    for case in cases:
        held = case.balanced[: len(case.answers)]
        for load in (one for one in held if one.over in over and one.spread_mm):
            key = load.over, load.at_mm
            if key not in sections:
                sections[key] = _section(body, load, stuff)
            section = sections[key]
            if section is not None:
                found.append(_peel(body, *section, load, stuff))
    return max(found, key=lambda one: one.share_percent, default=None)


def _section(body: manifold3d.Manifold, load: PartLoad, stuff: BeamStuff) -> tuple[Cut, Zones] | None:
    """Return the section just inside a face, of what lies over the part that holds it; None where it is no face."""
    sides = sorted(np.array(load.spread_mm), key=lambda side: float(np.linalg.norm(side)))
    thin, wide, long = sides
    thin_mm, wide_mm = float(np.linalg.norm(thin)), float(np.linalg.norm(wide))
    if wide_mm <= 0.0 or thin_mm > FLAT_SHARE * wide_mm:
        return None
    normal = np.cross(wide, long) / np.linalg.norm(np.cross(wide, long))
    at = np.array(load.at_mm)
    patch = [s * wide / 2.0 + t * long / 2.0 for s, t in ((-1, -1), (-1, 1), (1, 1), (1, -1))]
    best: tuple[Cut, Zones] | None = None
    for way in (normal, -normal):
        cut = cut_at(at + (thin_mm / 2.0 + DEEP_MM) * way, way)
        zones = printed_zones(section_at(body, cut, 0.0), cut, stuff, 1.0)
        window = shapely.convex_hull(shapely.MultiPoint([cut.axes[:2] @ corner for corner in patch]))
        # Walls of infill stand across the layers and are pulled along themselves: they count by their share.
        along_layers = abs(float(way @ np.array(stuff.normal))) > PARALLEL
        mine = Zones(
            whole=shapely.union_all(polygons_of(zones.whole.intersection(window))),
            core=shapely.union_all(polygons_of(zones.core.intersection(window))),
            core_share=stuff.infill_share if along_layers else zones.core_share,
        )
        if mine.whole.area > (best[1].whole.area if best else 0.0):
            best = cut, mine
    return best if best and best[1].moments.area_mm2 > 0.0 else None


def _peel(body: manifold3d.Manifold, cut: Cut, zones: Zones, load: PartLoad, stuff: BeamStuff) -> Peel:
    """Return what one face takes from one answer: pull, bending, shear and torsion, with the rise to its edge."""
    moments = zones.moments
    force, moment = summed(cut, [load], cut.at_mm + moments.centre_mm @ cut.axes[:2])
    stress = stress_in(zones, force, moment)
    slope = np.linalg.solve(moments.about_centre_mm4, np.array([-moment[1], moment[0]]))
    tensors = stress.tensors_mpa.copy()
    tensors[:, 2, 2] *= _rise(body, cut, zones, float(abs(force[2])), moment, slope)
    found = index(cut.axes.T @ tensors @ cut.axes, np.array(stuff.normal), stuff.strengths)
    worst = int(found.argmax())
    place = cut.at_mm + stress.places_mm[worst] @ cut.axes[:2]
    return Peel(share_percent=100.0 * float(found[worst]) ** 0.5, at_mm=as_vec(place), over=load.over)


def _rise(body: manifold3d.Manifold, cut: Cut, zones: Zones, pull_n: float, moment: Floats, slope: Floats) -> float:
    """Return how many times the stress of a stiff block the edge of a face takes, by the thinner of its two ends."""
    steep = float(np.linalg.norm(slope))
    if steep <= 0.0:
        return 1.0
    way = slope / steep
    low, high = zones.reach_mm(way)
    long_mm = high - low
    wide_mm = float(zones.whole.area) / long_mm
    bends_n_mm = abs(float(np.array([-moment[1], moment[0]]) @ way))
    waves = [
        wave_per_mm(wide_mm, strip[0], strip[1])
        for end in (low + DEEP_MM, high - DEEP_MM)
        for strip in _strips(body, cut, zones, way, end)
    ]
    return max((edge_rise(pull_n, bends_n_mm, long_mm, wave) for wave in waves), default=1.0)


def _strips(
    body: manifold3d.Manifold, cut: Cut, zones: Zones, way: Floats, end_mm: float
) -> Iterator[tuple[float, float]]:
    """Yield height and second moment of what of a part stands on an end of its face, cut square to the face."""
    across, up = np.array([-way[1], way[0]]), cut.axes[2]
    middle = float(zones.moments.centre_mm @ across)
    at = cut.at_mm + (end_mm * way + middle * across) @ cut.axes[:2]
    side = across @ cut.axes[:2]
    upright = replace(cut, at_mm=at, axes=np.array([side, up, np.cross(side, up)]))
    half_mm = zones.across_mm / 2.0
    foot = shapely.LineString([(-half_mm, 0.0), (half_mm, 0.0)])
    for piece in polygons_of(section_at(body, upright, 0.0)):
        _, low, _, high = piece.bounds
        if low <= DEEP_MM < high and piece.intersects(foot):
            yield float(high), float(moments_of(piece).about_centre_mm4[1, 1])
