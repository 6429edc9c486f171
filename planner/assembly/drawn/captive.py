"""Parts that cannot come to their places: drawn in another part, with no way in or out that was found.

Two parts at a time, as they stand: all else may come later. A part that springs in is not known from one that is
drawn wrong, so this asks; it never refuses.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from manifold3d import Manifold
from numpy.typing import NDArray

from planner.assembly.claim import Claim
from planner.assembly.copies_at_places import as_vector, stood
from planner.assembly.drawn.drawn_overlaps import shared_room
from planner.assembly.drawn.way_out import Line, Screw, has_way_out, may_hold
from planner.cache import kept, key_of
from planner.finding import Finding, Vec3, Verdict
from planner.job import Job, part_of
from planner.mesh import Solid
from planner.phrases import listed
from planner.survey import Survey

WAY_OUT_VERSION = 1
"""Raised whenever a way out is judged otherwise, so that kept answers are not trusted."""
NEAR_MM = 1.0
"""Meshes that nothing places count as drawn in place where they come as near as this and share no room."""
MEANT = frozenset({"snapped", "pressed"})
"""Joints whose parts spring or are forced past what holds them."""
AXES_MOST = 12
Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Standing:
    """A body where it stands, whether a `[[place]]` says so, and what took it there (3, 4); None: it is as drawn."""

    body: Manifold
    stated: bool
    motion: Floats | None = None


def captive_findings(
    job: Job, solids: Mapping[str, Solid], surveys: Mapping[str, Survey], claims: Sequence[Claim]
) -> tuple[Finding, ...]:
    """Return a hold for every two parts of which neither leaves the other by any way that was tried."""
    standing = _standing(job, solids, claims)
    found: dict[frozenset[str], Finding] = {}
    for one, other in combinations(sorted(standing), 2):
        parts = frozenset((part_of(one), part_of(other)))
        if parts in found or any(set(joint.between) == parts and joint.how in MEANT for joint in job.joints):
            continue
        mine, theirs = standing[one], standing[other]
        if mine.stated != theirs.stated or not may_hold(mine.body, theirs.body):
            continue
        if not _in_place(mine, theirs):
            continue
        rounds = [_rounds(surveys[part_of(copy)], standing[copy].motion) for copy in (one, other)]
        axes = tuple(line for _, line in sorted(row for each, _ in rounds for row in each)[:AXES_MOST])
        screws = tuple(screw for _, each in rounds for screw in each)
        if not _parts(mine.body, theirs.body, axes, screws):
            found[parts] = _finding(sorted(parts))
    return tuple(found.values())


def _standing(job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim]) -> dict[str, _Standing]:
    """Return every copy that a `[[place]]` puts somewhere, and first copies of other parts as drawn."""
    there = stood(job, solids, claims)
    found = {copy: _Standing(body=body, stated=True, motion=there.motion[copy]) for copy, body in there.body.items()}
    placed = {part_of(place.part) for place in job.places}
    for part in job.parts:
        body = solids[part.name].manifold
        if body is not None and part.name not in placed and part.scale_percent is None:
            found[part.name] = _Standing(body=body, stated=False)
    return found


def _in_place(one: _Standing, other: _Standing) -> bool:
    """Return whether two bodies stand as in the device: they share no room, and are near where nobody says so."""
    if shared_room(one.body, other.body) is not None:
        return False
    return one.stated or float(one.body.min_gap(other.body, 2.0 * NEAR_MM)) <= NEAR_MM


def _rounds(found: Survey, motion: Floats | None) -> tuple[list[tuple[float, Line]], list[Screw]]:
    """Return the axes of a part's bores and pegs where it stands, by how short they are, and those of drawn threads."""
    rounds = [
        *((bore.depth_mm, bore.axis, bore.centre_mm, bore.groove_pitch_mm) for bore in found.bores),
        *((peg.length_mm, peg.axis, peg.centre_mm, None) for peg in found.pegs),
    ]
    told = [(-long_mm, _moved(axis, at_mm, motion), pitch_mm) for long_mm, axis, at_mm, pitch_mm in rounds]
    return [(short, line) for short, line, _ in told], [(line, pitch) for _, line, pitch in told if pitch]


def _moved(axis: Vec3, at_mm: Vec3, motion: Floats | None) -> Line:
    """Return a line of the drawn part where that stands."""
    if motion is None:
        return axis, at_mm
    way = motion[:, :3] @ np.asarray(axis)
    return as_vector(way / np.linalg.norm(way)), as_vector(motion[:, :3] @ np.asarray(at_mm) + motion[:, 3])


def _parts(one: Manifold, other: Manifold, axes: tuple[Line, ...], screws: tuple[Screw, ...]) -> bool:
    """Return whether one body leaves the other; kept by what both are and where they stand."""
    meshes = [body.to_mesh64() for body in (one, other)]
    facts = [(np.asarray(mesh.vert_properties).tobytes(), np.asarray(mesh.tri_verts).tobytes()) for mesh in meshes]
    key = key_of(WAY_OUT_VERSION, facts, axes, screws)
    return kept("way-out", key, bool, lambda: has_way_out(one, other, axes, screws))


def _finding(parts: Sequence[str]) -> Finding:
    """Return what is said of two parts that cannot be put together as drawn."""
    return Finding(
        rule="mate.captive",
        part="",
        feature=listed(parts),
        verdict=Verdict.HOLD,
        why=f"{listed(parts)} cannot be put together as drawn: neither comes out of the other by any way that was "
        "tried, straight, straight twice, turned about an axis first, or unscrewed",
        remedy=f'where one of {listed(parts)} springs in, state a [[joint]] between them with how = "snapped" and '
        "print one to try; where they print in place, draw both in one mesh; else split the part round the "
        "other one, or widen its mouth",
        source="survey of the meshes",
        question=f"How do {listed(parts)} come together: does one spring in, or is a part split?",
    )
