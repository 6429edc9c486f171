"""Everything that comes before a scale: meshes read and surveyed, poses chosen, rules bound."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from planner.assembly import claims_of, with_guesses, with_stacks
from planner.errors import MeshError
from planner.finding import Finding, Vec3, Verdict
from planner.job import Job, fit_printers, read_printer, read_settings, shipped_names
from planner.mesh import Solid, read_solid
from planner.pose import PoseChoice, bed_for, choose_pose
from planner.rebore import Rebored, job_after, rebored
from planner.rules import Bound, Rule, calibration_findings, rules_of
from planner.size import Sizing, Widening, sizing, widenings
from planner.survey import Survey, gap_between_mm, layer_view, survey

Progress = Callable[[str, float], None]
"""Told what is being done, and which share of the whole is done (0 to 1)."""


def no_progress(what: str, share: float) -> None:
    """Say nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """A job with its solids as drawn, in mm, their surveys and poses, its scale, and its bound rules."""

    job: Job
    today: date
    solids: Mapping[str, Solid]
    surveys: Mapping[str, Survey]
    poses: Mapping[str, PoseChoice]
    sizing: Sizing
    bound: Bound
    findings: tuple[Finding, ...] = ()
    """What was found before any rule was bound: it holds at every scale."""
    gaps_mm: Mapping[tuple[str, str], float | None] = field(default_factory=dict)
    uneven: Mapping[str, Survey] = field(default_factory=dict)

    def rules_for(self, job: Job, downs: Mapping[str, Vec3]) -> tuple[Rule, ...]:
        """Return the rules of the same meshes for a changed job, such as another printer, or other poses."""
        return rules_of(
            job, self.surveys, downs, findings=self.findings, gaps_mm=self.gaps_mm, uneven=self.uneven
        ).rules

    @property
    def downs(self) -> dict[str, Vec3]:
        """The drawn direction of every part that faces the bed."""
        return {name: pose.down for name, pose in self.poses.items()}


def prepare(job: Job, today: date, progress: Progress = no_progress) -> Prepared:
    """Read, survey, size, pose and bind a job.

    A job guessed from a folder may lose meshes that cannot be read: each is a hold, the rest is judged.
    """
    job, solids, unread = _read(job, progress)
    surveys = {}
    for index, part in enumerate(job.parts):
        progress(f"measuring {part.name}", 0.1 + 0.9 * index / len(job.parts))
        surveys[part.name] = survey(solids[part.name])
    if job.guessed:
        job = with_guesses(job, surveys)
    job = with_stacks(job, surveys)
    poses = _poses(job, surveys)
    sized = sizing(job, solids, today)
    unstated = [gap.between for gap in job.gaps if gap.drawn_mm is None]
    gaps = {(one, other): gap_between_mm(solids[one], solids[other]) for one, other in unstated}
    uneven = {
        part.name: survey(solids[part.name].scaled(_factors(part.scale_percent)))
        for part in job.parts
        if isinstance(part.scale_percent, tuple)
    }
    findings = (*sized.findings, *calibration_findings(job, today), *unread)
    views = {part.name: layer_view(solids[part.name], poses[part.name].down) for part in job.parts}
    downs = {name: pose.down for name, pose in poses.items()}
    bound = rules_of(job, surveys, downs, findings=findings, gaps_mm=gaps, uneven=uneven, views=views)
    bound = replace(bound, guesses=(*bound.guesses, *sized.guesses))
    return Prepared(
        job=job,
        today=today,
        solids=solids,
        surveys=surveys,
        poses=poses,
        sizing=sized,
        bound=bound,
        findings=findings,
        gaps_mm=gaps,
        uneven=uneven,
    )


def what_widens(ready: Prepared) -> tuple[Widening, ...]:
    """Return what would widen the window of a prepared job most, among re-boring, poses, and shipped profiles."""
    here = Path.cwd()
    return widenings(
        ready.job,
        ready.bound.rules,
        ready.surveys,
        ready.downs,
        ready.sizing.percent,
        ready.rules_for,
        [read_printer(name, here) for name in shipped_names("printers")],
        [read_settings(name, here) for name in shipped_names("settings")],
    )


def prepare_rebored(ready: Prepared, progress: Progress = no_progress) -> tuple[Rebored, Prepared]:
    """Put a prepared job's openings with hardware in them back to size, and prepare what comes of it.

    The second is the job of the new meshes: its 100 % is the size that they were written at.
    """
    job, s = ready.job, ready.sizing.percent / 100.0
    downs = ready.downs
    claims = claims_of(job, ready.surveys).claims
    result = rebored(job, ready.solids, ready.surveys, claims, downs, s)
    after = job_after(job, result, ready.surveys, claims, downs, s)
    surveys = {}
    for index, (name, solid) in enumerate(result.solids.items()):
        progress(f"measuring {name} again", index / len(result.solids))
        surveys[name] = survey(solid)
    unstated = [gap.between for gap in after.gaps if gap.drawn_mm is None]
    gaps = {(one, other): gap_between_mm(result.solids[one], result.solids[other]) for one, other in unstated}
    poses = _poses(after, surveys)
    bound = rules_of(after, surveys, downs, findings=ready.sizing.findings, gaps_mm=gaps)
    sized = replace(ready.sizing, percent=100.0, why="the size just written is 100 % of the new meshes", guesses=())
    return result, Prepared(
        job=after, today=ready.today, solids=result.solids, surveys=surveys, poses=poses, sizing=sized, bound=bound
    )


def _poses(job: Job, surveys: Mapping[str, Survey]) -> dict[str, PoseChoice]:
    """Choose every part's pose for the job's printer and the least warping of its materials."""
    warp = min((material.warp.value for material in job.materials), default=0.0)
    printers, found = fit_printers(job), {}
    for part in job.parts:
        its = surveys[part.name]
        bed = bed_for(its.hull_mm, tuple(pose.down for pose in its.poses), printers)
        found[part.name] = choose_pose(part, its, bed=bed, warp=warp)
    return found


def _factors(percent: Vec3) -> Vec3:
    """Return three percents as factors."""
    return percent[0] / 100.0, percent[1] / 100.0, percent[2] / 100.0


def _read(job: Job, progress: Progress) -> tuple[Job, dict[str, Solid], tuple[Finding, ...]]:
    """Read every mesh; in a guessed job, those that cannot be read become holds and leave the job."""
    solids: dict[str, Solid] = {}
    unread: list[Finding] = []
    errors: list[MeshError] = []
    for index, part in enumerate(job.parts):
        progress(f"reading {part.mesh.name}", 0.1 * index / len(job.parts))
        try:
            solids[part.name] = read_solid(part.mesh, name=part.name, unit=job.mesh_unit)
        except MeshError as error:
            if not job.guessed:
                raise
            errors.append(error)
            unread.append(_unreadable(part.name, error))
    if errors and not solids:
        raise errors[0]
    return replace(job, parts=tuple(part for part in job.parts if part.name in solids)), solids, tuple(unread)


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
