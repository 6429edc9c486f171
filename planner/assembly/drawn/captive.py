"""Parts that cannot come to their places: drawn in another part, with no way in or out that was found.

Two parts at a time, as they stand: all else may come later. A part that springs in is not known from one that is
drawn wrong, so this asks; it never refuses.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from manifold3d import Manifold

from planner.assembly.claim import Claim
from planner.assembly.copies_at_places import stood
from planner.assembly.drawn.drawn_overlaps import shared_room
from planner.assembly.drawn.way_out import Line, has_way_out, may_hold
from planner.cache import kept, key_of
from planner.finding import Finding, Verdict
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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Standing:
    """A body where it stands, and whether a `[[place]]` says so."""

    body: Manifold
    stated: bool


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
        axes = () if mine.stated else tuple(_axes(surveys, parts))
        if not _parts(mine.body, theirs.body, axes):
            found[parts] = _finding(sorted(parts))
    return tuple(found.values())


def _standing(job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim]) -> dict[str, _Standing]:
    """Return every copy that a `[[place]]` puts somewhere, and first copies of other parts as drawn."""
    found = {copy: _Standing(body=body, stated=True) for copy, body in stood(job, solids, claims).body.items()}
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


def _axes(surveys: Mapping[str, Survey], parts: frozenset[str]) -> Iterator[Line]:
    """Yield the axes of bores and pegs of two parts, the longest first."""
    rounds = [
        *((-bore.depth_mm, bore.axis, bore.centre_mm) for part in sorted(parts) for bore in surveys[part].bores),
        *((-peg.length_mm, peg.axis, peg.centre_mm) for part in sorted(parts) for peg in surveys[part].pegs),
    ]
    for _, axis, centre_mm in sorted(rounds)[:AXES_MOST]:
        yield axis, centre_mm


def _parts(one: Manifold, other: Manifold, axes: tuple[Line, ...]) -> bool:
    """Return whether one body leaves the other; kept by what both are and where they stand."""
    meshes = [body.to_mesh64() for body in (one, other)]
    facts = [(np.asarray(mesh.vert_properties).tobytes(), np.asarray(mesh.tri_verts).tobytes()) for mesh in meshes]
    key = key_of(WAY_OUT_VERSION, facts, axes)
    return kept("way-out", key, bool, lambda: has_way_out(one, other, axes))


def _finding(parts: Sequence[str]) -> Finding:
    """Return what is said of two parts that cannot be put together as drawn."""
    return Finding(
        rule="mate.captive",
        part="",
        feature=listed(parts),
        verdict=Verdict.HOLD,
        why=f"{listed(parts)} cannot be put together as drawn: neither comes out of the other by any way that was "
        "tried, straight, straight twice, or turned about an axis first",
        remedy=f'where one of {listed(parts)} springs in, state a [[joint]] between them with how = "snapped" and '
        "print one to try; where they print in place, draw both in one mesh; else split the part round the "
        "other one, or widen its mouth",
        source="survey of the meshes",
        question=f"How do {listed(parts)} come together: does one spring in, or is a part split?",
    )
