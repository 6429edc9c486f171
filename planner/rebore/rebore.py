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
from planner.rebore.recut import (
    HEXAGON,
    boss,
    channel_cut,
    cylinder,
    drawn_mm,
    hexagon_cut,
    plug,
    round_cut,
    shielded,
    slot_cut,
    void,
)
from planner.rules import edge_limit
from planner.scale import Scale, axis_factors
from planner.survey import Bore, Channel, Slot, Survey

SLIVER_MM = 1e-4
"""Surfaces that nearly coincide leave slivers, which would count as faces: what is lower than this is smoothed away."""
BOSS_OVER_MM = 0.02
"""A boss is laid this much thicker than needed."""
ROOM_MM3 = 0.05
"""A boss may take up to this much of another opening: less is rounding."""
NO_PLUG = "no plug holds there, glue in a bush, or change the drawing"
BREAK_MM = 0.05
"""Where less than this would stay beside a bore, cutting it would open the part's side."""
BOSS_MOST_MM = 3.0
"""A boss that would stand out farther than this is a matter for the drawing; common practice, no source."""


Sizes = Mapping[str, float]
"""Sizes as drawn by now, by feature."""


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
            sizes = {done.feature: done.after_mm for done in changes}
            made = _cut(body, survey, aim, sizes, edge_limit(job, job.part(aim.part))[0], s)
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
    body: manifold3d.Manifold, survey: Survey, aim: Aim, sizes: Sizes, leave_mm: float, s: float
) -> tuple[manifold3d.Manifold, float] | str:
    """Return the body with one opening at its aim and its size as drawn then, or why it is left.

    ``sizes`` are those of the openings done before.
    """
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
    hexagonal = aim.kind == "seat" and opening.facets_n == HEXAGON
    across = drawn_mm(aim.target_mm, HEXAGON) if hexagonal else drawn_mm(aim.target_mm)
    web = opening.edge_wall_mm
    if web is not None and left_mm(opening, across, s) < BREAK_MM and across > aim.before_mm:
        return (
            f"at {across:.2f} mm it would break out: {web * s:.2f} mm stand beside it; "
            "take thinner hardware, or change the drawing"
        )
    if hexagonal:
        return hexagon_cut(body, opening, across, s), across
    if across < aim.before_mm:
        filler = plug(body, opening, s)
        if filler is None:
            return f"a mouth is too curved, or it opens sideways: {NO_PLUG}"
        near = [other for other in _others(survey, opening) if not shielded(body, opening, other, s)]
        for other in near:
            # what stands out into a round face that the bore opens through, as in a tube, is taken off again
            if other.drawn_diameter_mm > 2 * opening.drawn_diameter_mm and other.id not in sizes:
                filler -= void(body, other, s)
        if why := _closes(filler, near, sizes, s):
            return f"{why}: {NO_PLUG}"
        body += filler
    return round_cut(body, opening, across, s), across


def left_mm(bore: Bore, across_mm: float, factor: float) -> float:
    """Return the matter beside a bore once it is cut at scale: (web + d/2) factor - d'/2."""
    assert bore.edge_wall_mm is not None
    return (bore.edge_wall_mm + bore.drawn_diameter_mm / 2) * factor - across_mm / 2


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
        left = left_mm(bore, inside, s)
        if left >= limit - 1e-9:
            continue
        change = Change(
            part=aim.part, feature=bore.id, kind="boss", hardware=aim.hardware, before_mm=left, after_mm=left
        )
        ring = boss(body, bore, inside, inside + 2 * (limit + BOSS_OVER_MM), s)
        if ring is None:
            made.append(replace(change, kept="no boss: a mouth of the bore is oblique"))
        elif why := _no_room(ring, survey, bore, limit - left, sizes, s):
            made.append(replace(change, kept=f"no boss: {why}"))
        else:
            # filled and cut anew: a ring whose inner wall is the bore's own would leave slivers along it
            filler = cylinder(bore, inside + 2 * (limit + BOSS_OVER_MM), bore.depth_mm * s, s)
            body = round_cut(body + filler, bore, inside, s)
            made.append(replace(change, after_mm=limit + BOSS_OVER_MM))
    return body, made


def _no_room(ring: manifold3d.Manifold, survey: Survey, bore: Bore, grows_mm: float, sizes: Sizes, s: float) -> str:
    """Return why there is no room for a boss, or nothing."""
    if grows_mm > BOSS_MOST_MM:
        return f"it would stand out {grows_mm:.1f} mm"
    return _closes(ring, _others(survey, bore), sizes, s)


def _others(survey: Survey, bore: Bore) -> list[Bore]:
    """Return all bores of a part but one and its own steps."""
    both = (*survey.bores, *survey.possible_bores)
    return [other for other in both if bore.id not in (other.id, other.step_of) and bore.step_of != other.id]


def _closes(matter: manifold3d.Manifold, others: Sequence[Bore], sizes: Sizes, s: float) -> str:
    """Return which of some bores, as wide as they are by now, some matter would close, or nothing."""
    for other in others:
        free = cylinder(other, sizes.get(other.id, other.drawn_diameter_mm * s), other.depth_mm * s, s)
        if (matter ^ free).volume() > ROOM_MM3:
            return f"it would close {other.id}"
    return ""
