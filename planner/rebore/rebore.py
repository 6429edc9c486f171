"""Re-bore: put openings with hardware in them back to hardware size in the mesh, at scale.

Scaling scales bores, seats, channels and slots too, but not what goes into them. Each claimed one that would not
fit as printed is plugged and cut again along its own axis, as wide as the hardware needs after this printer's
undersize; where the matter left beside a bore is then too little, a boss is laid round it if there is room.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from manifold3d import Manifold, OpType

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Job
from planner.mesh import Solid, written_sound
from planner.phrases import listed
from planner.rebore.bore_plugs import NO_PLUG, OPENED_MM, Sizes, closes, crossed_by, fillings, others
from planner.rebore.longer_slots import slot_cut
from planner.rebore.opening_targets import Aim, OpeningKind, aims_of
from planner.rebore.recut import HEXAGON, boss, channel_cut, cylinder, drawn_mm, hexagon_cut, round_cut, round_cutter
from planner.rules import edge_limit
from planner.scale import Scale, axis_factors
from planner.survey import Bore, Channel, Slot, Survey

SLIVER_MM = 1e-4
"""Surfaces that nearly coincide leave slivers, which would count as faces: what is lower than this is smoothed away."""
BOSS_OVER_MM = 0.02
"""A boss is laid this much thicker than needed."""
FLECK_MM3 = 1e-3
"""What falls off and holds less is no piece of a part: it is a fleck where two faces nearly coincided."""
BREAK_MM = 0.05
"""Where less than this would stay beside a bore, cutting it would open the part's side."""
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
    names: Collection[str] | None = None,
) -> Rebored:
    """Return every part at its scale with its claimed openings put back to hardware size, or only some parts.

    ``solids``, ``surveys`` and ``downs`` are as drawn; ``s`` is the job's factor, a part's own scale wins.
    """
    factors = factors_of(job, s)
    aims = aims_of(job, surveys, claims, downs, factors)
    done: dict[str, Solid] = {}
    changes: list[Change] = []
    for part in (part for part in job.parts if names is None or part.name in names):
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
    """Re-bore one part at scale: what is too wide is filled, every opening cut, then bosses laid where little is left.

    All is filled before anything is cut, so that bores which cross each other do not depend on their order.
    """
    body = solid.manifold
    if body is None:
        return solid, [_kept(aim, "the mesh is not sound") for aim in aims]
    left, seen = [(aim, _why_left(aim, s)) for aim in aims], _seen(survey)
    limit_mm = edge_limit(job, job.part(survey.name))[0]
    crossed = {
        aim.feature: _no_clean(names)
        for aim, why in left
        if not why and isinstance(aim.opening, Bore) and _narrows(aim)
        if (names := crossed_by(seen, body, aim.opening, s))
    }
    tries = [(left, wider_mm) for wider_mm in (OPENED_MM if crossed else OPENED_MM[:1])]
    for asked, wider_mm in [*tries, ([(aim, why or crossed.get(aim.feature, "")) for aim, why in left], 0.0)]:
        made, changes = _recut(body, seen, asked, limit_mm, s, wider_mm)
        made, bosses = _bosses(job, made, survey, aims, changes, s)
        if all(change.kept for change in (*changes, *bosses)):
            return solid, [*changes, *bosses]
        pieces = [piece for piece in made.simplify(SLIVER_MM).decompose() if abs(piece.volume()) > FLECK_MM3]
        new = solid.with_body(Manifold.compose(pieces), "openings put back to hardware size")
        if len(pieces) <= len(body.decompose()) and written_sound(new):
            return new, [*changes, *bosses]
    return solid, [_kept(aim, why or "no clean cut is found: change the drawing") for aim, why in left]


def _no_clean(names: Sequence[str]) -> str:
    """Return why a bore is left that crosses others where no plug leaves a sound part."""
    return f"it crosses {listed(names)}, and no plug leaves clean faces there: {NO_PLUG}"


def _recut(
    body: Manifold, seen: Sequence[Bore], left: Sequence[tuple[Aim, str]], limit_mm: float, s: float, wider_mm: float
) -> tuple[Manifold, list[Change]]:
    """Return the body with the openings cut again that nothing is said against, and what was changed.

    ``wider_mm`` is how much wider what crosses a plug is opened.
    """
    sizes = {aim.feature: across_mm(aim) for aim, why in left if not why}
    narrowed = [aim.opening for aim, why in left if not why and isinstance(aim.opening, Bore) and _narrows(aim)]
    fills, refused = fillings(body, seen, narrowed, sizes, s, wider_mm)
    filled = {bore.id: bore for bore in narrowed if bore.id in fills}
    made = Manifold.batch_boolean([body, *fills.values()], OpType.Add)
    changes: list[Change] = []
    cuts: list[Manifold] = []
    for aim, known in left:
        if why := known or refused.get(aim.feature, ""):
            changes.append(_kept(aim, why))
        elif isinstance(aim.opening, Bore) and not _hexagonal(aim):
            crossing = [(filled[name], sizes[name]) for name in filled if name != aim.feature]
            buried, cut = round_cutter(body, aim.opening, sizes[aim.feature], s, crossing)
            made += buried
            cuts.append(cut)
            changes.append(replace(_kept(aim, ""), after_mm=sizes[aim.feature]))
        else:
            made, change = _cut(made, aim, limit_mm, s)
            changes.append(change)
    return Manifold.batch_boolean([made, *cuts], OpType.Subtract), changes


def _seen(survey: Survey) -> tuple[Bore, ...]:
    """Return all bores of a part, certain and possible."""
    return (*survey.bores, *survey.possible_bores)


def _kept(aim: Aim, why: str) -> Change:
    """Return that an opening is left as it is."""
    return Change(
        part=aim.part,
        feature=aim.feature,
        kind=aim.kind,
        hardware=aim.hardware,
        before_mm=aim.before_mm,
        after_mm=aim.before_mm,
        kept=why,
    )


def _why_left(aim: Aim, s: float) -> str:
    """Return why an opening is left as it is; nothing where it is to be cut."""
    if aim.least_mm is None:
        return "the thread's root is in no table"
    if aim.fits:
        return "it fits as it is"
    web = aim.opening.edge_wall_mm if isinstance(aim.opening, Bore) else None
    if web is None or not isinstance(aim.opening, Bore):
        return ""
    across = across_mm(aim)
    if left_mm(aim.opening, across, s) < BREAK_MM and across > aim.before_mm:
        return (
            f"at {across:.2f} mm it would break out: {web * s:.2f} mm stand beside it; "
            "take thinner hardware, or change the drawing"
        )
    return ""


def _hexagonal(aim: Aim) -> bool:
    """Return whether an opening is a nut's pocket."""
    return aim.kind == "seat" and isinstance(aim.opening, Bore) and aim.opening.facets_n == HEXAGON


def across_mm(aim: Aim) -> float:
    """Return the size as drawn that an opening is cut to: a bore's through its corners."""
    if not isinstance(aim.opening, Bore):
        return aim.target_mm
    return drawn_mm(aim.target_mm, HEXAGON) if _hexagonal(aim) else drawn_mm(aim.target_mm)


def _narrows(aim: Aim) -> bool:
    """Return whether a bore is filled before it is cut."""
    return not _hexagonal(aim) and across_mm(aim) < aim.before_mm


def _cut(body: Manifold, aim: Aim, leave_mm: float, s: float) -> tuple[Manifold, Change]:
    """Return the body with a slot, a curved channel or a nut's pocket at its aim, and what was changed."""
    opening, across = aim.opening, across_mm(aim)
    done = replace(_kept(aim, ""), after_mm=across)
    if isinstance(opening, Slot):
        longer = slot_cut(body, opening, across, leave_mm, s)
        if longer is None:
            return body, _kept(aim, f"less than {leave_mm:.2f} mm would stay at its ends: take narrower webbing")
        return longer, done
    if isinstance(opening, Channel):
        return channel_cut(body, opening, drawn_mm(across), s), done
    return hexagon_cut(body, opening, across, s), done


def left_mm(bore: Bore, across_mm: float, factor: float) -> float:
    """Return the matter beside a bore once it is cut at scale: (web + d/2) factor - d'/2."""
    assert bore.edge_wall_mm is not None
    return (bore.edge_wall_mm + bore.drawn_diameter_mm / 2) * factor - across_mm / 2


def _bosses(
    job: Job, body: Manifold, survey: Survey, aims: Sequence[Aim], changes: Sequence[Change], s: float
) -> tuple[Manifold, list[Change]]:
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
            # filled and cut again: a ring whose inner wall is the bore's own would leave slivers along it
            filler = cylinder(bore, inside + 2 * (limit + BOSS_OVER_MM), bore.depth_mm * s, s)
            body = round_cut(body + filler, bore, inside, s)
            made.append(replace(change, after_mm=limit + BOSS_OVER_MM))
    return body, made


def _no_room(ring: Manifold, survey: Survey, bore: Bore, grows_mm: float, sizes: Sizes, s: float) -> str:
    """Return why there is no room for a boss, or nothing."""
    if grows_mm > BOSS_MOST_MM:
        return f"it would stand out {grows_mm:.1f} mm"
    return closes(ring, others(_seen(survey), bore), sizes, s)
