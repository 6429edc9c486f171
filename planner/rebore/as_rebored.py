"""Parts that a job re-bores (``rebore = true``): their meshes with openings at hardware size, measured again.

The new mesh is written back at drawn size, so that everything that follows scales it as it scales any other. Openings
keep the names and the drawn sizes that the job knows them by; what they measure is new.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import TypeVar

from planner.assembly import claims_of
from planner.finding import Vec3
from planner.job import Job
from planner.mesh import Solid
from planner.rebore.rebore import factors_of, rebored
from planner.survey import Bore, Channel, Slot, Survey, survey

Opening = TypeVar("Opening", Slot, Channel)

PARALLEL_COS = 0.9999
NEAR_MM = 0.3
"""An opening cut again lies this near to where it lay; a bore's middle may move along its axis by its depth."""


def as_rebored(
    job: Job, solids: Mapping[str, Solid], surveys: Mapping[str, Survey], downs: Mapping[str, Vec3], factor: float
) -> tuple[dict[str, Solid], dict[str, Survey]]:
    """Return all solids and surveys at drawn size, those of parts to be re-bored as they are after it.

    ``solids`` and ``surveys`` are those of the mesh files; ``factor`` is the size at which openings fit their hardware.
    """
    claims = claims_of(job, surveys).claims  # of the whole job: other parts tell whose a bore is
    job = replace(job, parts=tuple(part for part in job.parts if part.rebore))
    made = rebored(job, solids, surveys, claims, downs, factor)
    new_solids, new_surveys, factors = dict(solids), dict(surveys), factors_of(job, factor)
    changed = {change.part for change in made.changes if not change.kept}
    for name in (part.name for part in job.parts if part.name in changed):
        new_solids[name] = made.solids[name].scaled(1.0 / factors[name])
        new_surveys[name] = _renamed(surveys[name], survey(new_solids[name]))
    return new_solids, new_surveys


def _renamed(old: Survey, new: Survey) -> Survey:
    """Return a new survey with the names and the drawn sizes that openings have in the mesh file."""
    bores, left = _bores_renamed(old.bores, new.bores, 0)
    possible, _ = _bores_renamed(old.possible_bores, new.possible_bores, left)
    return replace(
        new,
        sha256=old.sha256,  # of the file, which is unchanged
        bores=bores,
        possible_bores=possible,
        slots=_openings_renamed(old.slots, new.slots),
        channels=_openings_renamed(old.channels, new.channels),
    )


def _bores_renamed(old: tuple[Bore, ...], new: tuple[Bore, ...], after_n: int) -> tuple[tuple[Bore, ...], int]:
    """Return new bores by their old names, in the old order, and how many new ones were numbered."""
    pairs: dict[str, Bore] = {}
    for one in new:
        free = [bore for bore in old if bore.id not in {was.id for was in pairs.values()}]
        near = [(gap, k) for k, bore in enumerate(free) if (gap := _apart_mm(bore, one)) is not None]
        if near:
            pairs[one.id] = free[min(near)[1]]
    fresh = [one.id for one in new if one.id not in pairs]
    names = {key: was.id for key, was in pairs.items()}
    names |= {key: f"new {after_n + n}" for n, key in enumerate(fresh, 1)}
    renamed = [
        replace(
            one,
            id=names[one.id],
            step_of=None if one.step_of is None else names.get(one.step_of, one.step_of),
            was_mm=pairs[one.id].named_mm if one.id in pairs else None,
        )
        for one in new
    ]
    order = {bore.id: k for k, bore in enumerate(old)}
    return tuple(sorted(renamed, key=lambda bore: order.get(bore.id, len(order)))), after_n + len(fresh)


def _apart_mm(old: Bore, new: Bore) -> float | None:
    """Return how far apart two bores lie where they may be one: on one axis, one within the other's length."""
    if abs(math.fsum(a * b for a, b in zip(old.axis, new.axis, strict=True))) < PARALLEL_COS:
        return None
    away = tuple(a - b for a, b in zip(new.centre_mm, old.centre_mm, strict=True))
    along = math.fsum(a * b for a, b in zip(away, old.axis, strict=True))
    aside = math.sqrt(max(0.0, math.fsum(a * a for a in away) - along * along))
    if aside > NEAR_MM or abs(along) > max(old.depth_mm, new.depth_mm) / 2:
        return None
    return aside + abs(along) + abs(old.depth_mm - new.depth_mm) / 2


def _openings_renamed(old: tuple[Opening, ...], new: tuple[Opening, ...]) -> tuple[Opening, ...]:
    """Return new slots or channels with the sizes that those at their places were drawn at, in the old order."""
    found: list[tuple[int, Opening]] = []
    for one in new:
        far = [(math.dist(one.at_mm, was.at_mm), k) for k, was in enumerate(old)]
        near = min(far, default=(math.inf, len(old)))
        if near[0] <= NEAR_MM:
            found.append((near[1], replace(one, was_mm=old[near[1]].named_mm)))
        else:
            found.append((len(old), one))
    return tuple(one for _, one in sorted(found, key=lambda pair: pair[0]))
