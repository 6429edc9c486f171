"""The pose of every part of a job: chosen by its shape first, and once more where its own load tears its layers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet

from planner.finding import Vec3
from planner.job import Job, fit_printers, read_pose_weights
from planner.mesh import Solid
from planner.pose import CostTerm, PoseChoice, bed_for, choose_pose, load_term, stressed_choice
from planner.strength import Screened, lying_otherwise, stress_of
from planner.survey import Survey


def poses_of(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    names: AbstractSet[str] | None = None,
    stressed: Mapping[str, Mapping[Vec3, CostTerm]] | None = None,
) -> dict[str, PoseChoice]:
    """Choose every part's pose, or those of some, for the job's printer and the least warping of its materials.

    ``stressed`` tells what their own loads cost some parts with each direction down.
    """
    warp = min((material.warp.value for material in job.materials), default=0.0)
    printers, found = fit_printers(job), {}
    for part in (part for part in job.parts if names is None or part.name in names):
        its = surveys[part.name]
        bed = bed_for(its.hull_mm, tuple(pose.down for pose in its.poses), printers)
        found[part.name] = choose_pose(
            part,
            its,
            solids[part.name],
            settings=job.settings_at(job.own_height_mm(part.name)),
            printer=job.printer,
            material=job.materials[0],
            bed=bed,
            warp=warp,
            stressed=(stressed or {}).get(part.name),
        )
    return found


def stronger_poses(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    poses: Mapping[str, PoseChoice],
    screens: Sequence[Screened],
    factor: float,
) -> dict[str, PoseChoice]:
    """Return the poses with what each loaded part's own load costs in them: where that decides, chosen again.

    Loads that are known count; where none is, those that nobody has ruled out.
    """
    weights, half, found = read_pose_weights(), job.limits.strength_share.value, dict(poses)
    by_part: dict[str, list[Screened]] = {}
    for one in screens:
        by_part.setdefault(one.part, []).append(one)
    for name, each in by_part.items():
        known = [one for one in each if one.known] or each
        worst = max(known, key=lambda one: stress_of(job, one, factor)[0])
        share_percent, stress_mpa = stress_of(job, worst, factor)
        if share_percent <= 0.0:
            continue
        lying = {
            down: load_term(percent / 100.0, stress_mpa, half, weights)
            for percent, down in lying_otherwise(worst, share_percent)
        }
        choice = stressed_choice(poses[name], lying)
        found[name] = choice or poses_of(job, solids, surveys, {name}, {name: lying})[name]
    return found
