"""Re-bore: put hardware bores back to hardware size in the mesh, at scale.

Scaling scales the bores too, but not what goes into them. Each claimed bore that would not fit as printed is
plugged and cut anew along its own axis, as wide as the hardware needs after this printer's undersize.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import manifold3d
import numpy as np

from planner.finding import Vec3
from planner.fit.bind_bores import undersize_of
from planner.fit.claim import SEATS, Claim, printed_ends
from planner.job import Job
from planner.mesh import Solid
from planner.survey import Bore

FACETS_N = 64
SHARE = 0.3
"""Where between the least and the largest printed bore the new one is aimed: nearer to tight, it can be reamed."""
OVERLAP_MM = 0.02
"""The plug reaches this far into the wall, so that it becomes one with it."""
PAST_MM = 0.05
"""A through bore is cut this far beyond both mouths."""
RING_MM, WHOLE_SHARE = 0.15, 0.98
"""Where less than 98 % of a thin ring about the bore is matter, a mouth is oblique and a plug would stand out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One bore of one part: drawn diameter at scale before and after; ``kept`` says why it was left as it is."""

    part: str
    bore: str
    hardware: str
    before_mm: float
    after_mm: float
    kept: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rebored:
    """All parts at scale by name, in drawn orientation, and what was changed in them."""

    solids: Mapping[str, Solid]
    changes: tuple[Change, ...]


def rebored(
    job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim], downs: Mapping[str, Vec3], s: float
) -> Rebored:
    """Return every part at its scale with its claimed bores put back to hardware size.

    ``solids`` and ``downs`` are as drawn; ``s`` is the job's factor, a part's own scale wins.
    """
    done: dict[str, Solid] = {}
    changes: list[Change] = []
    for part in job.parts:
        own = part.scale_percent
        factor = s if own is None else own / 100.0 if isinstance(own, float) else None
        if factor is None:  # an uneven scale makes other solids of the same names; its bores are judged as oval
            assert isinstance(own, tuple)
            done[part.name] = solids[part.name].scaled((own[0] / 100.0, own[1] / 100.0, own[2] / 100.0))
            continue
        mine = [claim for claim in claims if claim.part == part.name]
        done[part.name], made = _part(job, solids[part.name].scaled(factor), mine, downs[part.name], factor)
        changes += made
    return Rebored(solids=done, changes=tuple(changes))


def target_mm(job: Job, claim: Claim, down: Vec3) -> tuple[float, float, float] | None:
    """Return the drawn diameter that fits as printed, and the least and largest inscribed ones that do; in mm."""
    hardware = claim.hardware
    ends = printed_ends(hardware.diameter_mm, hardware.kind, claim.fit, job.limits, job.tables)
    if ends is None:
        return None
    undersize = undersize_of(job, claim.bore.axis, down)[0].value
    low, high = ends[0] + undersize, ends[1] + undersize
    return (low + SHARE * (high - low)) / math.cos(math.pi / FACETS_N), low, high


def _part(job: Job, solid: Solid, claims: Sequence[Claim], down: Vec3, s: float) -> tuple[Solid, list[Change]]:
    """Re-bore one part at scale."""
    body, changes = solid.manifold, []
    for claim in claims:
        before, target = claim.bore.drawn_diameter_mm * s, target_mm(job, claim, down)
        change = Change(
            part=claim.part, bore=claim.bore.id, hardware=claim.hardware.name, before_mm=before, after_mm=before
        )
        if body is None or target is None:
            why = "the mesh is not sound" if body is None else "the thread's root is in no table"
            changes.append(replace(change, kept=why))
            continue
        if target[1] <= claim.bore.diameter_mm * s <= target[2]:
            changes.append(replace(change, kept="it fits as it is"))
            continue
        made = _cut(body, claim.bore, target[0], s)
        if made is None:
            changes.append(replace(change, kept="its mouth is oblique: glue in a bush, or change the drawing"))
            continue
        body = made
        changes.append(replace(change, after_mm=target[0]))
    if body is None or all(change.kept for change in changes):
        return solid, changes
    mesh = body.to_mesh64()
    return (
        replace(
            solid,
            vertices_mm=np.array(mesh.vert_properties[:, :3]),
            faces=np.array(mesh.tri_verts, dtype=np.int64),
            healed=(*solid.healed, "bores put back to hardware size"),
        ),
        changes,
    )


def _cut(body: manifold3d.Manifold, bore: Bore, target_drawn_mm: float, s: float) -> manifold3d.Manifold | None:
    """Return the body with one bore at its new diameter; None where a plug would stand out of the surface."""
    before, depth = bore.drawn_diameter_mm * s, bore.depth_mm * s
    if target_drawn_mm < before:
        plug = _cylinder(bore, before + 2 * OVERLAP_MM, depth, s)
        wall = _cylinder(bore, before + 2 * RING_MM, depth, s) - plug
        if (wall ^ body).volume() < WHOLE_SHARE * wall.volume():
            return None
        body += plug
    return body - _cylinder(bore, target_drawn_mm, depth + (2 * PAST_MM if bore.through else 0.0), s)


def _cylinder(bore: Bore, diameter_mm: float, depth_mm: float, s: float) -> manifold3d.Manifold:
    """Return a cylinder along a bore's axis about its middle, at scale."""
    axis = np.array(bore.axis)
    x = np.cross(axis, np.eye(3)[int(np.argmin(np.abs(axis)))])
    x /= np.linalg.norm(x)
    frame = np.column_stack([x, np.cross(axis, x), axis, np.array(bore.centre_mm) * s])
    upright = manifold3d.Manifold.cylinder(depth_mm, diameter_mm / 2, diameter_mm / 2, FACETS_N, center=True)
    return upright.transform(np.ascontiguousarray(frame))


def job_after(job: Job, result: Rebored, claims: Sequence[Claim], downs: Mapping[str, Vec3], s: float) -> Job:
    """Return the job that the re-bored meshes make: as drawn now, so that 100 % is the size just written."""

    def sized(part: str, drawn_mm: float | None) -> float | None:
        own = job.part(part).scale_percent
        return None if drawn_mm is None else drawn_mm * (own / 100.0 if isinstance(own, float) else s)

    sizes = {(change.part, change.bore): change.after_mm for change in result.changes}
    hardware = tuple(
        replace(claim.hardware, joins=(claim.part,), fit=claim.fit, bore_mm=sizes[claim.part, claim.bore.id])
        for claim in _each_once(claims, sizes)
    )
    seats = tuple(replace(h, bore_mm=sized(h.joins[0], h.bore_mm)) for h in job.hardware if h.kind in SEATS)
    return replace(
        job,
        parts=tuple(replace(part, scale_percent=None, sha256="", pose=downs[part.name]) for part in job.parts),
        size=replace(job.size, percent=100.0, what_if=True, measures=()),
        hardware=(*hardware, *seats),
        gaps=tuple(replace(g, drawn_mm=sized(g.between[0], g.drawn_mm)) for g in job.gaps),
        cords=tuple(replace(c, channel_mm=sized(c.part, c.channel_mm)) for c in job.cords),
        straps=tuple(replace(t, slot_mm=sized(t.part, t.slot_mm)) for t in job.straps),
    )


def _each_once(claims: Sequence[Claim], sizes: Mapping[tuple[str, str], float]) -> list[Claim]:
    """Return one claim for each part, hardware and new size; a second bore of that size is found by it, too."""
    seen: dict[tuple[str, str, float], Claim] = {}
    for claim in claims:
        seen.setdefault((claim.part, claim.hardware.name, round(sizes[claim.part, claim.bore.id], 2)), claim)
    return list(seen.values())
