"""Everything that comes before a scale is used: meshes read and measured, poses chosen, rules bound."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date

from planner.assembly import (
    DrillReach,
    captive_findings,
    claims_of,
    close_fits,
    drawn_in_place,
    overlap_findings,
    with_stacks,
)
from planner.errors import MeshError
from planner.finding import Finding, Vec3, Verdict
from planner.job import Job
from planner.mechanism import Movement, movement_of
from planner.mesh import Solid, read_solid
from planner.plan.movement_and_strength import Moves, movement, moves_of, moves_rules, told_moves
from planner.plan.parts.downs_on_demand import DownsOnDemand
from planner.plan.parts.posed_parts import poses_of, stronger_poses
from planner.plan.stages import Prepared, Read
from planner.pose import PoseChoice
from planner.rebore import Rebored, as_rebored, job_after, rebored
from planner.rules import (
    Forces,
    Rule,
    WithoutLayers,
    answers_of,
    chosen_material,
    constants,
    in_doubt,
    open_doubts,
    rules_of,
    slit_rules,
    with_sure_guesses,
)
from planner.scale import Scale, axis_factors
from planner.size import Sizing, range_rules, sizing
from planner.strength import Screened, pressed_bores, screened, strength_rules, with_elements
from planner.supplies import suits_findings
from planner.survey import Survey, gap_between_mm, slit_of, survey, survey_ahead, views_of

Progress = Callable[[str, float], None]
"""Called with what is being done, and which share of the whole is done (0 to 1)."""


def no_progress(what: str, share: float) -> None:
    """Say nothing."""


def prepare(job: Job, today: date, progress: Progress = no_progress) -> Prepared:
    """Read, measure, pose, size and bind a job.

    A job guessed from a folder may lose meshes that cannot be read: each is a hold, the rest is judged.
    """
    known, surveys = _measured(job, progress)
    progress("joining and loading parts", 1.0)
    sized = sizing(known.job, known.solids, today)
    claims = claims_of(known.job, surveys).claims
    overlaps = overlap_findings(known.job, known.solids, claims)
    captive = captive_findings(known.job, known.solids, surveys, claims)
    findings = (*sized.findings, *known.unread, *overlaps, *captive)
    if not any(part.rebore for part in known.job.parts):
        return _bound(known, surveys, today, sized, findings)
    poses = poses_of(known.job, known.solids, surveys)
    downs = {name: pose.down for name, pose in poses.items()}
    solids, again = as_rebored(known.job, known.solids, surveys, downs, Scale(sized.percent).factor)
    recut = {name: pose for name, pose in poses.items() if known.job.part(name).rebore}  # bores were cut for these
    ready = _bound(replace(known, solids=solids), again, today, sized, findings, recut)
    return replace(ready, as_drawn=(known.solids, surveys))


def prepare_moves(job: Job, today: date, progress: Progress = no_progress) -> Moves:
    """Read, measure and size a job for how it moves alone; what it tells is what it would tell of the whole job.

    A part's pose counts only where a bore's play hangs on it: its own load is put on it when that pose is asked for.
    """
    if any(part.rebore for part in job.parts):  # bores are cut for poses
        ready = prepare(job, today, progress)
        moving, rules = movement(ready)
        return Moves(job=ready.job, sizing=ready.sizing, movement=moving, rules=rules)
    known, surveys = _measured(job, progress)
    sized = sizing(known.job, known.solids, today)
    factor = Scale(sized.percent).factor
    downs = DownsOnDemand(job=known.job, solids=known.solids, surveys=surveys, factor=factor)
    claims = claims_of(known.job, surveys).claims
    moving = movement_of(known.job, known.solids, surveys, claims, downs)
    downs.movements.append(moving)
    drawn = factor == 1.0
    asked = moves_rules(known.job, moving, drawn=drawn)
    moving, rules = told_moves(known.job, surveys, moving, asked, drawn=drawn)
    return Moves(job=known.job, sizing=sized, movement=moving, rules=rules)


def _measured(job: Job, progress: Progress) -> tuple[Read, dict[str, Survey]]:
    """Return a job with its solids and their surveys, and what follows from these."""
    read = read_meshes(job, progress)
    surveys = _surveys(read.solids, lambda what, share: progress(f"measuring {what}", 0.1 + 0.9 * share))
    stated = with_sure_guesses(read.job, surveys) if job.guessed else read.job
    return replace(read, job=with_stacks(stated, surveys)), surveys


def prepare_rebored(ready: Prepared, progress: Progress = no_progress) -> tuple[Rebored, Prepared]:
    """Put a prepared job's openings with hardware in them back to size, and prepare what comes of it.

    The second is the job of the new meshes: its 100 % is the size that they were written at.
    """
    job, factor, downs = ready.job, Scale(ready.sizing.percent).factor, ready.downs
    claims = claims_of(job, ready.surveys).claims
    result = rebored(job, ready.solids, ready.surveys, claims, downs, factor)
    after = job_after(job, result, ready.surveys, claims, downs, factor)
    surveys = _surveys(result.solids, lambda what, share: progress(f"measuring {what} again", share))
    ranged = range_rules(job, ready.sizing.percent, ready.sizing.ends, ready.bound.every)
    said = (*ready.sizing.at_its_size(), *(rule.at(factor) for rule in ranged))
    sized = replace(
        ready.sizing,
        percent=100.0,
        why="the size just written is 100 % of the new meshes",
        guesses=(),
        rules=(),
        ends=(),
    )
    read = Read(job=after, solids=result.solids, unread=())
    # Openings change; the mechanism and what it puts on parts do not.
    moves, strong = (tuple(constants(rule.at(factor) for rule in rules)) for rules in (ready.moves, ready.strength))
    return result, _bound(read, surveys, ready.today, sized, said, known=(moves, strong, ready.forces))


def read_meshes(job: Job, progress: Progress = no_progress) -> Read:
    """Read every mesh; in a guessed job, those that cannot be read become holds and leave the job."""
    solids: dict[str, Solid] = {}
    unread: list[Finding] = []
    errors: list[MeshError] = []
    for index, part in enumerate(job.parts):
        progress(f"reading {part.mesh.name}", 0.1 * index / len(job.parts))
        try:
            unit = part.mesh_unit or job.mesh_unit
            solids[part.name] = read_solid(part.mesh, name=part.name, unit=unit, only=part.mesh_object)
        except MeshError as error:
            if not job.guessed:
                raise
            errors.append(error)
            unread.append(_unreadable(part.name, error))
    if errors and not solids:
        raise errors[0]
    left = tuple(part for part in job.parts if part.name in solids)
    return Read(job=replace(job, parts=left), solids=solids, unread=tuple(unread))


def _surveys(solids: Mapping[str, Solid], progress: Progress) -> dict[str, Survey]:
    """Measure every solid."""
    survey_ahead(solids.values())
    found = {}
    for index, (name, solid) in enumerate(solids.items()):
        progress(name, index / len(solids))
        found[name] = survey(solid)
    return found


def _bound(
    read: Read,
    surveys: Mapping[str, Survey],
    today: date,
    sized: Sizing,
    findings: tuple[Finding, ...],
    chosen: Mapping[str, PoseChoice] | None = None,
    known: tuple[tuple[Rule, ...], tuple[Rule, ...], Forces] | None = None,
) -> Prepared:
    """Choose poses but those ``chosen``, measure what rules ask for beside the surveys, and bind all rules.

    ``known`` are rules of movement, rules of strength and forces on bores that are known already; left out, the
    mechanism is put together.
    """
    job, solids, kept = read.job, read.solids, chosen or {}
    poses = {**poses_of(job, solids, surveys, {part.name for part in job.parts} - kept.keys()), **kept}
    downs = {name: pose.down for name, pose in poses.items()}
    gaps_mm = {(one, other): gap_between_mm(solids[one], solids[other]) for one, other in _measurable(read, surveys)}
    uneven = {
        part.name: survey(solids[part.name].scaled(axis_factors(part.scale_percent)))
        for part in job.parts
        if isinstance(part.scale_percent, tuple)
    }
    close, reach = close_fits(job, solids, surveys), DrillReach(solids)
    slits = {name: slit_of(solid) for name, solid in solids.items()}
    asked = answers_of(job, open_doubts(job, surveys, close=close))
    moving: Movement | None = None
    screens: tuple[Screened, ...] = ()
    if known is None:
        factor = Scale(sized.percent).factor
        moving, moves, screens = _loaded(job, solids, surveys, downs, factor)
        again = stronger_poses(job, solids, surveys, poses, screens, factor)
        turned = {name for name, pose in again.items() if pose.down != downs[name]}
        poses, downs = again, {name: pose.down for name, pose in again.items()}
        if turned:
            moving, moves, screens = _loaded(job, solids, surveys, downs, factor)
        claims = claims_of(job, surveys).claims if moving is None else moving.claims
        known = moves, strength_rules(job, screens), pressed_bores(job, screens, claims, moving, solids)
    moves, strong, forces = known
    bound = rules_of(
        job,
        surveys,
        downs,
        findings=(*findings, *suits_findings(job)),
        gaps_mm=gaps_mm,
        uneven=uneven,
        views=views_of(solids, downs),
        today=today,
        asked=asked,
        ranges=True,
        sizes=(*sized.rules, *moves, *strong, *slit_rules(job, slits)),
        close=close,
        forces=forces,
        reach=reach,
    )
    settings = settings_of(job, surveys, downs)
    every = (*bound.rules, *(settings.rules if settings else ()))
    ranged = range_rules(job, sized.percent, sized.ends, every)
    return Prepared(
        job=job,
        today=today,
        solids=solids,
        surveys=surveys,
        poses=poses,
        sizing=sized,
        bound=replace(
            bound, rules=(*bound.rules, *ranged), guesses=(*bound.guesses, *sized.guesses), settings=settings
        ),
        findings=findings,
        gaps_mm=gaps_mm,
        close=close,
        reach=reach,
        slits=slits,
        uneven=uneven,
        asked=asked,
        movement=moving,
        moves=moves,
        strength=strong,
        screens=screens,
        forces=forces,
    )


def _loaded(
    job: Job, solids: Mapping[str, Solid], surveys: Mapping[str, Survey], downs: Mapping[str, Vec3], factor: float
) -> tuple[Movement | None, tuple[Rule, ...], tuple[Screened, ...]]:
    """Return how a device moves in some poses, the rules of that, and its loaded parts under their loads."""
    moving, moves = moves_of(job, solids, surveys, downs)
    claims = claims_of(job, surveys).claims if moving is None else moving.claims
    screens = screened(job, solids, surveys, claims, moving, downs)
    return moving, moves, with_elements(job, screens, solids, surveys, factor)


def settings_of(job: Job, surveys: Mapping[str, Survey], downs: Mapping[str, Vec3]) -> WithoutLayers | None:
    """Return the settings rules of a job in the material chosen for it; None where there is none to choose from.

    Parts whose unit is open are not measured against them.
    """
    material = chosen_material(job) if job.materials else None
    if material is None:
        return None
    open_ones = in_doubt(job, surveys)
    sure = {name: one for name, one in surveys.items() if name not in open_ones}
    return WithoutLayers(job=job, material=material, surveys=sure, downs=downs)


def _measurable(read: Read, surveys: Mapping[str, Survey]) -> list[tuple[str, str]]:
    """Return the gaps to measure: those unstated, and those stated between parts that are drawn in place."""
    job = read.job
    places: tuple[frozenset[str], ...] = ()
    if any(gap.drawn_mm is not None for gap in job.gaps):
        places = drawn_in_place(job, read.solids, claims_of(job, surveys).claims)
    return [
        gap.between
        for gap in job.gaps
        if gap.drawn_mm is None or any(place.issuperset(gap.between) for place in places)
    ]


def _unreadable(part: str, error: MeshError) -> Finding:
    """Return the hold for a mesh that cannot be read."""
    return Finding(
        rule="mesh.unread",
        part="",
        feature=part,
        verdict=Verdict.HOLD,
        why=f"{part} is not judged: {error.wrong}",
        remedy=error.todo,
        source="mesh file",
        question=f"Is {error.where} part of the device?",
    )
