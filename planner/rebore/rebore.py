"""Re-bore: put openings with hardware in them back to hardware size in the mesh, at scale.

Scaling scales bores, seats, channels and slots too, but not what goes into them. Each claimed one that would not
fit as printed is plugged and cut anew along its own axis, as wide as the hardware needs after this printer's
undersize; where the matter left beside a bore is then too little, a boss is laid round it if there is room.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import manifold3d

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Job
from planner.mesh import Solid
from planner.rebore.opening_targets import Aim, OpeningKind, aims_of
from planner.rebore.recut import HEXAGON, boss, channel_cut, cylinder, drawn_mm, hexagon_cut, plug, round_cut, slot_cut
from planner.rules import edge_limit
from planner.scale import Scale, axis_factors
from planner.survey import Bore, Channel, Slot, Survey

SLIVER_MM = 1e-4
"""Surfaces that nearly coincide leave slivers, which would count as faces: what is lower than this is smoothed away."""
BOSS_OVER_MM = 0.02
"""A boss is laid this much thicker than needed."""
ROOM_MM3 = 0.05
"""A boss may take up to this much of another opening: less is rounding."""
BOSS_MOST_MM = 3.0
"""A boss that would stand out farther than this is a matter for the drawing; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One opening of one part, as drawn at scale before and after; ``kept`` says why it was left as it is.

    For a ``boss`` the sizes are the least matter beside the bore.
    """

    part: str
    feature: str
    kind: OpeningKind | Literal["boss"]
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
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    downs: Mapping[str, Vec3],
    s: float,
) -> Rebored:
    """Return every part at its scale with its claimed openings put back to hardware size.

    ``solids``, ``surveys`` and ``downs`` are as drawn; ``s`` is the job's factor, a part's own scale wins.
    """
    factors = factors_of(job, s)
    aims = aims_of(job, surveys, claims, downs, factors)
    done: dict[str, Solid] = {}
    changes: list[Change] = []
    for part in job.parts:
        own = part.scale_percent
        if isinstance(own, tuple):  # an uneven scale makes other solids of the same names; its bores are judged as oval
            done[part.name] = solids[part.name].scaled(axis_factors(own))
            continue
        factor = factors[part.name]
        mine = [aim for aim in aims if aim.part == part.name]
        solid = solids[part.name].scaled(factor)
        done[part.name], made = _part(job, solid, surveys[part.name], mine, factor)
        changes += made
    return Rebored(solids=done, changes=tuple(changes))


def factors_of(job: Job, s: float) -> dict[str, float]:
    """Return the factor of every part that is scaled evenly."""
    return {
        part.name: s if part.scale_percent is None else Scale(part.scale_percent).factor
        for part in job.parts
        if not isinstance(part.scale_percent, tuple)
    }


def _part(job: Job, solid: Solid, survey: Survey, aims: Sequence[Aim], s: float) -> tuple[Solid, list[Change]]:
    """Re-bore one part at scale: first every opening, then bosses where the matter left is too little."""
    body, changes = solid.manifold, []
    for aim in aims:
        change = Change(
            part=aim.part,
            feature=aim.feature,
            kind=aim.kind,
            hardware=aim.hardware,
            before_mm=aim.before_mm,
            after_mm=aim.before_mm,
        )
        if body is None or aim.least_mm is None:
            why = "the mesh is not sound" if body is None else "the thread's root is in no table"
            changes.append(replace(change, kept=why))
        elif aim.fits:
            changes.append(replace(change, kept="it fits as it is"))
        else:
            made = _cut(body, survey, aim, edge_limit(job, job.part(aim.part))[0], s)
            if isinstance(made, str):
                changes.append(replace(change, kept=made))
            else:
                body, after = made
                changes.append(replace(change, after_mm=after))
    if body is None:
        return solid, changes
    body, bosses = _bosses(job, body, survey, aims, changes, s)
    changes += bosses
    if all(change.kept for change in changes):
        return solid, changes
    return solid.with_body(body.simplify(SLIVER_MM), "openings put back to hardware size"), changes


def _cut(
    body: manifold3d.Manifold, survey: Survey, aim: Aim, leave_mm: float, s: float
) -> tuple[manifold3d.Manifold, float] | str:
    """Return the body with one opening at its aim and its size as drawn then, or why it is left."""
    opening = aim.opening
    if isinstance(opening, Slot):
        longer = slot_cut(body, opening, aim.target_mm, leave_mm, s)
        return (
            (longer, aim.target_mm)
            if longer
            else f"less than {leave_mm:.2f} mm would stay at its ends: take narrower webbing"
        )
    if isinstance(opening, Channel):
        return channel_cut(body, opening, drawn_mm(aim.target_mm), s), aim.target_mm
    if aim.kind == "seat" and opening.facets_n == HEXAGON:
        corners = drawn_mm(aim.target_mm, HEXAGON)
        return hexagon_cut(body, opening, corners, s), corners
    across = drawn_mm(aim.target_mm)
    if across < aim.before_mm:
        filler = plug(body, opening, s)
        why = "a mouth is too curved, or it opens sideways" if filler is None else _closes(filler, survey, opening, s)
        if why or filler is None:
            return f"{why}: no plug holds there, glue in a bush, or change the drawing"
        body += filler
    return round_cut(body, opening, across, s), across


def _bosses(
    job: Job, body: manifold3d.Manifold, survey: Survey, aims: Sequence[Aim], changes: Sequence[Change], s: float
) -> tuple[manifold3d.Manifold, list[Change]]:
    """Lay a boss round every bore of hardware that has too little matter beside it, where there is room."""
    limit = edge_limit(job, job.part(survey.name))[0]
    sizes = {change.feature: change.after_mm for change in changes}
    made: list[Change] = []
    for aim in aims:
        bore = aim.opening
        if aim.kind != "bore" or not isinstance(bore, Bore) or bore.edge_wall_mm is None:
            continue
        inside = sizes[aim.feature]
        left = (bore.edge_wall_mm + bore.drawn_diameter_mm / 2) * s - inside / 2
        if left >= limit - 1e-9:
            continue
        change = Change(
            part=aim.part, feature=bore.id, kind="boss", hardware=aim.hardware, before_mm=left, after_mm=left
        )
        ring = boss(body, bore, inside, inside + 2 * (limit + BOSS_OVER_MM), s)
        if ring is None:
            made.append(replace(change, kept="no boss: a mouth of the bore is oblique"))
        elif why := _no_room(ring, survey, bore, limit - left, s):
            made.append(replace(change, kept=f"no boss: {why}"))
        else:
            # filled and cut anew: a ring whose inner wall is the bore's own would leave slivers along it
            filler = cylinder(bore, inside + 2 * (limit + BOSS_OVER_MM), bore.depth_mm * s, s)
            body = round_cut(body + filler, bore, inside, s)
            made.append(replace(change, after_mm=limit + BOSS_OVER_MM))
    return body, made


def _no_room(ring: manifold3d.Manifold, survey: Survey, bore: Bore, grows_mm: float, s: float) -> str:
    """Return why there is no room for a boss, or nothing."""
    return f"it would stand out {grows_mm:.1f} mm" if grows_mm > BOSS_MOST_MM else _closes(ring, survey, bore, s)


def _closes(matter: manifold3d.Manifold, survey: Survey, bore: Bore, s: float) -> str:
    """Return which other bore some matter for a bore would close, or nothing."""
    for other in (*survey.bores, *survey.possible_bores):
        if bore.id not in (other.id, other.step_of) and bore.step_of != other.id:
            void = cylinder(other, other.drawn_diameter_mm * s, other.depth_mm * s, s)
            if (matter ^ void).volume() > ROOM_MM3:
                return f"it would close {other.id}"
    return ""
