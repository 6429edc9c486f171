"""Parts at size: scaled, mirrored, posed and estimated."""

from __future__ import annotations

from dataclasses import replace

from planner.finding import Vec3
from planner.job import Job, Material, Part
from planner.layers import PartEstimate, estimate_part, mass_g
from planner.mesh import Solid, posed
from planner.packing import outline_of
from planner.plan.parts.openings_at_size import openings_of
from planner.plan.plan_record import PlannedPart
from planner.plan.prepare import Prepared, Progress


def planned_parts(ready: Prepared, material: Material, progress: Progress) -> tuple[PlannedPart, ...]:
    """Scale, mirror, pose and estimate every part."""
    planned: list[PlannedPart] = []
    for index, part in enumerate(ready.job.parts):
        progress(f"laying out {part.name}", 0.6 * index / len(ready.job.parts))
        made = _planned(ready, part, material)
        if made.file in {other.file for other in planned}:  # two names may differ only in what a file cannot hold
            made = replace(made, file=made.file.removesuffix(".stl") + f"-{index + 1}.stl")
        planned.append(made)
    return tuple(planned)


def factors_of(part: Part, percent: float) -> Vec3:
    """Return the factors along x, y and z: the job's, or the part's own."""
    own = part.scale_percent
    if isinstance(own, tuple):
        return own[0] / 100.0, own[1] / 100.0, own[2] / 100.0
    factor = (percent if own is None else own) / 100.0
    return factor, factor, factor


def _planned(ready: Prepared, part: Part, material: Material) -> PlannedPart:
    """Scale, mirror, pose and estimate one part."""
    job, solid, pose = ready.job, ready.solids[part.name], ready.poses[part.name]
    factors = factors_of(part, ready.sizing.percent)
    mirrored = part.handed and job.size.mirrored
    sized = solid.scaled(factors)
    if mirrored:
        sized = sized.mirrored()
    standing, estimate = _stood(ready, part, sized, pose.down, material)
    extra = estimate.support_mm3 + estimate.kinds_mm3["brim"]
    return PlannedPart(
        part=part,
        solid=solid,
        survey=ready.surveys[part.name],
        pose=pose,
        scale_percent=(100.0 * factors[0], 100.0 * factors[1], 100.0 * factors[2]),
        mirrored=mirrored,
        sized=sized,
        posed=standing,
        estimate=estimate,
        other_way=None,
        outline_mm=outline_of(standing),
        mass_g=None if estimate.approximate else mass_g(estimate.deposited_mm3 - extra, material).value,
        file=f"parts/{file_stem(part, factors, job)}.stl",
    )


def with_other_ways(ready: Prepared, parts: tuple[PlannedPart, ...], material: Material) -> tuple[PlannedPart, ...]:
    """Add to every part what standing on its next best pose would cost."""
    return tuple(
        part
        if part.pose.runner_up_down is None
        else replace(part, other_way=_stood(ready, part.part, part.sized, part.pose.runner_up_down, material)[1])
        for part in parts
    )


def _stood(
    ready: Prepared, part: Part, sized: Solid, drawn_down: Vec3, material: Material
) -> tuple[Solid, PartEstimate]:
    """Stand a part, at size and mirrored, on a drawn direction, and estimate it."""
    job, mirrored = ready.job, part.handed and ready.job.size.mirrored
    down = (-drawn_down[0], drawn_down[1], drawn_down[2]) if mirrored else drawn_down
    standing, factors = posed(sized, down), factors_of(part, ready.sizing.percent)
    openings = openings_of(ready.surveys[part.name], ready.solids[part.name], sized, down, factors, mirrored=mirrored)
    settings = job.settings_at(job.own_height_mm(part.name))
    estimate = estimate_part(standing, settings=settings, printer=job.printer, material=material, openings=openings)
    return standing, estimate


def file_stem(part: Part, factors: Vec3, job: Job) -> str:
    """Return a file name that says part, percent and side, such as ``cuff-112pc-left``."""
    percents = [f"{100.0 * factor:.6g}" for factor in factors]
    size = percents[0] if len(set(percents)) == 1 else "x".join(percents)
    name = "".join(letter if letter.isalnum() or letter in "-_." else "-" for letter in part.name).strip(".")
    return "-".join([name or "part", f"{size}pc", *([job.size.side] if job.size.side else [])])
