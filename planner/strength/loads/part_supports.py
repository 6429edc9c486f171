"""What holds a part: bores with hardware, slots with webbing, and where it meets parts that are stated to meet it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import manifold3d
import numpy as np
from numpy.typing import NDArray

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Job, Part, part_of
from planner.mechanism import Frame, peg_axes
from planner.mesh import Solid
from planner.strength.loads.entering import over_bore, over_slot
from planner.strength.loads.part_load import Support, as_vec
from planner.survey import Survey

Floats = NDArray[np.float64]
Lines = tuple[Vec3, ...]
APART_MM = 0.5
"""Two places nearer to each other than this are one."""
BOTH_ENDS_SHARE = 0.5
"""A pin is held at both ends where bores of one part reach along so much of its length; no source."""
CARRIED = ("soft", "cover")
"""Duties of parts that hang on others and hold nothing."""


def supports_of(
    job: Job,
    copy: str,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    frames: Mapping[str, Frame],
) -> tuple[Support, ...]:
    """Return the places that hold a copy, in its mesh, as drawn."""
    part = part_of(copy)
    survey = surveys[part]
    mine = [claim for claim in claims if claim.part == part]
    found = [
        Support(
            at_mm=one.bore.centre_mm,
            over=one.bore.id,
            axis=one.bore.axis,
            turns=one.fit == "turning" or one.hardware.kind == "bearing",
            spread_mm=over_bore(one.bore),
        )
        for one in mine
    ]
    found += _about_pin(copy, solids, claims, frames)
    if any(strap.part == part for strap in job.straps):
        found += [Support(at_mm=slot.at_mm, over="slot", spread_mm=over_slot(slot)) for slot in survey.slots]
    by_bore = {name for claim in mine for name in claim.hardware.joins} - {part}
    for joint in job.joints:
        if part not in joint.between or joint.between[0] == joint.between[1]:
            continue
        other = joint.between[1 - joint.between.index(part)]
        if job.part(other).judged_duty in CARRIED:
            continue
        place = None if other in by_bore else _meeting_mm(copy, other, solids, frames)
        if place is not None:
            axis = _axis(copy, place[2], surveys, frames) if joint.how == "turns" else None
            held = Support(at_mm=place[0], over=other, spread_mm=place[1], axis=axis, turns=axis is not None)
            found.append(held)
    kept: list[Support] = []
    for one in found:
        if all(np.linalg.norm(np.subtract(one.at_mm, other.at_mm)) > APART_MM for other in kept):
            kept.append(one)
    return tuple(kept)


def _about_pin(
    copy: str, solids: Mapping[str, Solid], claims: Sequence[Claim], frames: Mapping[str, Frame]
) -> list[Support]:
    """Return the bores of other copies that a printed pin lies in, in its mesh; none where it stands nowhere."""
    mine = [claim for claim in claims if claim.hardware.printed == part_of(copy)] if copy in frames else []
    low, high = solids[part_of(copy)].bounds_mm if mine else (np.zeros(3), np.zeros(3))
    found = []
    for claim in mine:
        for other in (name for name in frames if part_of(name) == claim.part):
            back = frames[copy].inverse()
            at = np.array(back.point(frames[other].point(claim.bore.centre_mm)))
            if (low - APART_MM <= at).all() and (at <= high + APART_MM).all():
                axis = as_vec(np.array(back.direction(frames[other].direction(claim.bore.axis))))
                found.append(Support(at_mm=as_vec(at), over=claim.part, axis=axis, turns=claim.fit == "turning"))
    return found


def held_at_both_ends(part: Part, survey: Survey, claims: Sequence[Claim]) -> bool:
    """Return whether a printed pin goes through bores of one part that reach along most of it, such as two lugs."""
    bores: dict[str, list[tuple[float, float]]] = {}
    for claim in claims:
        if claim.hardware.printed == part.name:
            middle = sum(a * b for a, b in zip(claim.bore.centre_mm, claim.bore.axis, strict=True))
            half = claim.bore.depth_mm / 2.0
            bores.setdefault(claim.part, []).append((middle - half, middle + half))
    reach_mm = [max(high for _, high in each) - min(low for low, _ in each) for each in bores.values()]
    return max(reach_mm, default=0.0) >= BOTH_ENDS_SHARE * max(survey.size_mm)


def _axis(copy: str, other: str, surveys: Mapping[str, Survey], frames: Mapping[str, Frame]) -> Vec3 | None:
    """Return the axis in a copy's mesh about which it turns on a printed peg; None where no one peg lies in a bore."""
    found = peg_axes((other, copy), surveys, frames)
    return as_vec(np.array(frames[copy].inverse().direction(found[0].axis))) if len(found) == 1 else None


def _meeting_mm(
    copy: str, other: str, solids: Mapping[str, Solid], frames: Mapping[str, Frame]
) -> tuple[Vec3, Lines, str] | None:
    """Return the middle and the sides of what two copies share, in the first one's mesh, and which the second one is.

    None where they stand apart.

    Where a part was printed several times, the copy counts that stands nearest.
    """
    if copy not in frames:
        return None
    mine = _box(copy, solids, frames)
    best: tuple[float, tuple[Vec3, Lines, str]] | None = None
    for name in frames:
        if part_of(name) != other or name == copy:
            continue
        theirs = _box(name, solids, frames)
        low, high = np.maximum(mine[0], theirs[0]), np.minimum(mine[1], theirs[1])
        gap = float(np.maximum(low - high, 0.0).max())
        if gap <= APART_MM and (best is None or gap < best[0]):
            low, high = _shared(low, high, [(one, solids, frames) for one in (copy, name)])
            back = frames[copy].inverse()
            sides = tuple(as_vec(np.array(back.direction(side))) for side in np.diag(np.maximum(high - low, 0.0)))
            best = gap, (as_vec(np.array(back.point((low + high) / 2.0))), sides, name)
    return None if best is None else best[1]


def _shared(
    low: Floats, high: Floats, both: Sequence[tuple[str, Mapping[str, Solid], Mapping[str, Frame]]]
) -> tuple[Floats, Floats]:
    """Return the least and greatest corner of what lies in a box of the copy that has less there, such as a peg.

    The box itself where nothing of either does, or a mesh has faults.
    """
    sides = np.maximum(high - low, 0.0) + 2.0 * APART_MM
    box = manifold3d.Manifold.cube([float(side) for side in sides]).translate([float(v) for v in low - APART_MM])
    pieces = []
    for copy, solids, frames in both:
        body = solids[part_of(copy)].manifold
        pieces.append(None if body is None else body.transform(frames[copy].matrix()) ^ box)
    held = [piece for piece in pieces if piece is not None and not piece.is_empty()]
    if len(held) < len(both):
        return low, high
    least = np.reshape(min(held, key=lambda piece: float(piece.volume())).bounding_box(), (2, 3))
    deep = high > low  # where they only touch, the plane between them is where they meet
    return np.where(deep, np.maximum(least[0], low), low), np.where(deep, np.minimum(least[1], high), high)


def _box(copy: str, solids: Mapping[str, Solid], frames: Mapping[str, Frame]) -> tuple[np.ndarray, np.ndarray]:
    """Return the least and greatest corner of a copy where it stands."""
    points = frames[copy].points(solids[part_of(copy)].vertices_mm)
    return points.min(axis=0), points.max(axis=0)
