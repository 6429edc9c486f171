"""A prepared job changed by edits: the same meshes, everything else anew, as a check of the new file would."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

from planner.assembly import DrillReach, with_stacks
from planner.finding import Vec3
from planner.job import Job
from planner.mesh import Solid
from planner.plan.movement_and_strength import moves_of
from planner.plan.parts.posed_parts import poses_of
from planner.plan.prepare import settings_of
from planner.plan.stages import Prepared
from planner.rebore import as_rebored
from planner.remedy import Again, Remedies, Stand, remedies_of
from planner.rules import answers_of, open_doubts, rules_of, slit_rules
from planner.scale import Scale
from planner.size import range_rules, sizing
from planner.supplies import suits_findings
from planner.survey import Slit, slit_of, views_of

STILL = ("nozzle_c", "bed_c", "fan_percent", "bridge_speed_mm_s", "least_layer_s", "spacing_mm")
"""Settings that no pose hangs on."""
MOVING = ("hardware", "cords", "joints", "gaps", "places", "points", "drive", "use", "works", "printer", "materials")
"""What of a job movement hangs on, beside its meshes and their size."""


def proved_remedies(ready: Prepared, *, moved: bool = True) -> Remedies:
    """Return the remedies of a prepared job, each proved at its size by judging the changed job.

    Without ``moved``, the device moves as before the change: quick enough for a page that answers every key.
    """
    return remedies_of(*stands(ready, moved=moved))


def stands(ready: Prepared, *, moved: bool = True) -> tuple[Stand, Again]:
    """Return how a prepared job stands, and what judges the job when it is changed."""
    now = Stand(
        job=ready.job,
        percent=ready.sizing.percent,
        surveys=ready.surveys,
        downs=ready.downs,
        rules=ready.bound.every,
        settings=ready.bound.settings,
        solids=ready.solids,
        screens=ready.screens,
    )
    return now, partial(_again, ready, moved=moved)


def _again(
    ready: Prepared, job: Job, *, posed: bool = True, strong: bool = True, asked: bool = True, moved: bool = True
) -> Stand:
    """Return how the meshes stand in a changed job; where not ``posed``, with poses, movement and strength of before.

    Where not ``strong``, with the strength of before; where not ``asked``, with every guess taken for a fact.

    A thicker pin, or one with a head, may end a joint's range sooner, and turns with more friction and less play: to
    turn everything until it meets takes seconds, so that is done for what has proved itself otherwise.
    """
    job = with_stacks(job, ready.from_files[1])
    sized, findings = ready.sizing, ready.findings
    if job.size != ready.job.size:
        sized = sizing(job, ready.from_files[0], ready.today)
        findings = (*sized.findings, *(f for f in ready.findings if f not in ready.sizing.findings))
    downs = _downs(ready, job, posed=posed)
    solids, surveys = ready.from_files
    names = {part.name for part in job.parts}
    if gone := surveys.keys() - names:  # a printed pin that is bought now
        solids = {name: one for name, one in solids.items() if name not in gone}
        surveys = {name: one for name, one in surveys.items() if name not in gone}
    if any(part.rebore for part in job.parts):
        solids, surveys = as_rebored(job, solids, surveys, downs, Scale(sized.percent).factor)
    moves = ready.moves
    if posed and moved and _moving(job) != _moving(ready.job):
        before = ready.movement if solids is ready.solids else None
        moves = moves_of(job, solids, surveys, downs, before)[1]
    strength, forces = ready.strength_for(job, downs) if posed and strong else (ready.strength, ready.forces)
    rules = rules_of(
        job,
        surveys,
        downs,
        findings=(*findings, *suits_findings(job)),
        gaps_mm=ready.gaps_mm,
        uneven=ready.uneven,
        views=ready.views_in(downs) if solids is ready.solids else views_of(solids, downs),
        today=ready.today,
        asked=answers_of(job, open_doubts(job, surveys, close=ready.close)) if asked else (),
        sizes=(
            *sized.rules,
            *moves,
            *(rule for rule in strength if rule.part in names),
            *slit_rules(job, _slits(ready, solids)),
        ),
        known=ready.once("rules of parts", dict),
        close=ready.close,
        forces=forces,
        reach=ready.reach if solids is ready.solids else DrillReach(solids),
    ).rules
    settings = settings_of(job, surveys, downs)
    every = (*rules, *(settings.rules if settings else ()))
    return Stand(
        job=job,
        percent=sized.percent,
        surveys=surveys,
        downs=downs,
        rules=(*every, *range_rules(job, sized.percent, sized.ends, every)),
        settings=settings,
    )


def _slits(ready: Prepared, solids: Mapping[str, Solid]) -> Mapping[str, Slit | None]:
    """Return the slits of the meshes of a changed job: those of before, unless bores were cut again."""
    return ready.slits if solids is ready.solids else {name: slit_of(solid) for name, solid in solids.items()}


def _moving(job: Job) -> tuple[object, ...]:
    """Return what of a job its movement hangs on."""
    return tuple(getattr(job, key) for key in MOVING)


def _downs(ready: Prepared, job: Job, *, posed: bool) -> dict[str, Vec3]:
    """Return the poses in a changed job: chosen anew where the change may move them."""
    was = ready.job
    still = {key: getattr(was.settings, key) for key in STILL}
    settings = replace(job.settings, **still)
    if posed and (job.printer, settings, job.materials) != (was.printer, was.settings, was.materials):
        # Where its own load lays a part, it stays: what that load tears is judged in the changed job.
        names = {part.name for part in job.parts if not ready.poses[part.name].by_load}
    else:
        before = {part.name: part.pose for part in was.parts}
        names = {part.name for part in job.parts if part.pose != before.get(part.name)}
    if not names:
        return ready.downs
    return {
        **ready.downs,
        **{name: pose.down for name, pose in poses_of(job, *ready.from_files, names).items()},
    }
