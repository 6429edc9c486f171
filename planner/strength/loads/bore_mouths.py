"""Which way is out of a bore: at a blind one's open end, or toward the other parts where these are drawn in place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import manifold3d
import numpy as np
from trimesh.geometry import align_vectors

from planner.assembly import Claim, coaxial
from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength.loads.bore_pulls import holds_itself
from planner.strength.loads.part_load import as_vec
from planner.strength.loads.prying import SCREWS
from planner.survey import Bore

NARROW_SHARE = 0.3
"""Radius of what is looked at beyond an end, in diameters of the bore: matter beside the bore is not in it."""
CLOSED_SHARE, OPEN_SHARE = 0.5, 0.05
"""So much matter within a diameter beyond an end closes it, and so little leaves it open; a drill's point is hollow."""
BEHIND_MM = 0.1
"""Bores one behind another overlap along their axis by no more than rounding."""


def ways_out(claims: Sequence[Claim], solids: Mapping[str, Solid]) -> dict[tuple[str, str], Vec3]:
    """Return the unit vector out of the part along each bore with a screw or an insert, by part and bore.

    Nothing for a bore whose way out is not known: one that goes through, with no other part drawn in place on it.
    """
    found = {}
    for claim in claims:
        key = claim.part, claim.bore.id
        if claim.hardware.kind not in SCREWS or key in found:
            continue
        blind = holds_itself(claim) and not claim.bore.through
        way = _open_end(claim.bore, solids.get(claim.part)) if blind else _to_others(claim, claims)
        if way:
            found[key] = as_vec(way * np.array(claim.bore.axis))
    return found


def _to_others(claim: Claim, claims: Sequence[Claim]) -> float:
    """Return on which side, along the axis, the other parts of a piece lie as drawn: 1, -1, or 0 where not known."""
    sides = set()
    for one in claims:
        if one.hardware.name == claim.hardware.name and one.part != claim.part and coaxial(one.bore, claim.bore):
            off = float(np.dot(np.subtract(one.bore.centre_mm, claim.bore.centre_mm), claim.bore.axis))
            behind = abs(off) >= (one.bore.depth_mm + claim.bore.depth_mm) / 2.0 - BEHIND_MM
            sides.add(float(np.sign(off)) if behind else 0.0)
    return sides.pop() if len(sides) == 1 else 0.0


def _open_end(bore: Bore, solid: Solid | None) -> float:
    """Return at which end, along its axis, a blind bore is open: 1, -1, or 0 where that is not clear."""
    body = None if solid is None else solid.manifold
    if body is None:
        return 0.0
    back, front = (_filled(body, bore, way) for way in (-1.0, 1.0))
    if max(back, front) < CLOSED_SHARE or min(back, front) > OPEN_SHARE:
        return 0.0
    return 1.0 if front < back else -1.0


def _filled(body: manifold3d.Manifold, bore: Bore, way: float) -> float:
    """Return the share of a narrow cylinder beyond one end of a bore, one diameter long, that is matter."""
    wide, axis = bore.drawn_diameter_mm, way * np.array(bore.axis)
    turn = np.asarray(align_vectors((0.0, 0.0, 1.0), axis))[:3, :3]  # type: ignore[no-untyped-call]
    start = np.array(bore.centre_mm) + axis * bore.depth_mm / 2.0
    probe = manifold3d.Manifold.cylinder(wide, NARROW_SHARE * wide, NARROW_SHARE * wide, 12)
    probe = probe.transform(np.column_stack([turn, start]))
    return float((body ^ probe).volume() / probe.volume())
