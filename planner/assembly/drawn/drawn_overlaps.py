"""Parts that stand in each other as drawn, whether or not anything ties the two.

Parts that hardware or a joint ties, on one axis and beside each other, show that meshes share a frame. Every other mesh
that overlaps one of these is either drawn round its own origin, which only a person can tell, or cannot be put there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

import numpy as np
from manifold3d import Manifold

from planner.assembly.bore_axes import coaxial
from planner.assembly.claim import Claim
from planner.assembly.drawn.drawn_in_place import APART_MM, near, rings, ties
from planner.assembly.pegs.pegs_in_bores import stated_joint
from planner.finding import Finding, Vec3, Verdict
from planner.job import Job
from planner.mesh import Solid
from planner.phrases import listed

THICK_MM, LEAST_MM3 = 0.25, 1.0
"""What two bodies share counts where it is so thick in the mean, and so much: less is a press fit drawn tight, or the
flats of a coarse round (common practice, no source)."""
MEANT = frozenset({"snapped"})
"""Joints whose parts may be drawn in each other: a hook that springs open."""


def overlap_findings(job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim]) -> tuple[Finding, ...]:
    """Return a finding for every two parts, by their first copies, that share room in a device drawn in place.

    A hold, as a mesh may be drawn by itself; a no-go where `[[place]]` says that both stand as drawn.
    """
    moved = {one.part for one in job.places if any(one.at_mm) or one.turn[3] % 360.0}
    stated = {one.part for one in job.places} - moved
    names = [p.name for p in job.parts if p.scale_percent is None and p.name not in moved]
    bodies = {name: body for name in names if (body := solids[name].manifold) is not None}
    shared = {pair: cut for pair in combinations(sorted(bodies), 2) if (cut := shared_room(*(bodies[n] for n in pair)))}
    if not shared:
        return ()
    anchored = stated | set(_beside(job, solids, claims, bodies))
    return tuple(
        _finding(pair, *found, in_place=stated.issuperset(pair))
        for pair, found in shared.items()
        if anchored.intersection(pair) and stated_joint(job, *pair) not in MEANT
    )


def _beside(
    job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim], bodies: Mapping[str, Manifold]
) -> Iterator[str]:
    """Yield the parts that something ties to another one, beside which they are drawn without standing in it."""
    for one, other, most_mm in (*ties(job, claims), *rings(job, solids, claims), *_in_line(claims)):
        beside = one in bodies and other in bodies and near(solids[one], solids[other], most_mm)
        if beside and shared_room(bodies[one], bodies[other]) is None:
            yield from (one, other)


def _in_line(claims: Sequence[Claim]) -> Iterator[tuple[str, str, float]]:
    """Yield every two parts with bores in line for the same hardware, though others of their bores lie elsewhere.

    One size of screw may join a whole chain of links, each to the next.
    """
    for one, other in combinations(claims, 2):
        if one.part != other.part and one.hardware.name == other.hardware.name and coaxial(one.bore, other.bore):
            yield one.part, other.part, APART_MM


def shared_room(one: Manifold, other: Manifold) -> tuple[float, Vec3] | None:
    """Return what two bodies share, in mm³, and the middle of its greatest piece; None where that is nothing."""
    mine, theirs = np.reshape(one.bounding_box(), (2, 3)), np.reshape(other.bounding_box(), (2, 3))
    if (np.minimum(mine[1], theirs[1]) - np.maximum(mine[0], theirs[0]) <= 0.0).any():
        return None
    cut = one ^ other
    pieces = [piece for piece in cut.decompose() if _counts(piece)]
    if not pieces:
        return None
    box = max(pieces, key=lambda piece: float(piece.volume())).bounding_box()
    x, y, z = ((box[k] + box[k + 3]) / 2.0 for k in range(3))
    return float(cut.volume()), (x, y, z)


def _counts(piece: Manifold) -> bool:
    """Return whether a shared piece is more than drawing or a press fit explains."""
    mm3, mm2 = float(piece.volume()), float(piece.surface_area())
    return mm3 >= LEAST_MM3 and 2.0 * mm3 >= THICK_MM * mm2


def _finding(pair: tuple[str, str], mm3: float, at_mm: Vec3, *, in_place: bool) -> Finding:
    """Return what is said of two parts that share room."""
    where = ", ".join(f"{value:.1f}" for value in at_mm)
    return Finding(
        rule="mate.overlap",
        part="",
        feature=listed(pair),
        verdict=Verdict.NO_GO if in_place else Verdict.HOLD,
        measured=mm3,
        limit=0.0,
        unit="mm³",
        at_mm=at_mm,
        why=f"{listed(pair)} share {mm3:.0f} mm³ of room as drawn (at [{where}]): two bodies cannot be in one place",
        remedy=f"draw {listed(pair)} clear of each other; where one of them is not drawn in its place, say with a "
        '[[place]] where it stands; where a hook springs open there, state a [[joint]] with how = "snapped"',
        source="survey of the meshes",
        question="" if in_place else f"Are {listed(pair)} both drawn where they stand in the device?",
    )
