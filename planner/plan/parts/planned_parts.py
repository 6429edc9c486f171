"""Parts at size: scaled, mirrored, posed and estimated."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.finding import Vec3
from planner.job import Job, Material, Part
from planner.layers import PartEstimate, PosedPart, estimate_parts, mass_g
from planner.mesh import Solid, posed
from planner.packing import file_word, outline_of, taken
from planner.plan.parts.openings_at_size import openings_of
from planner.plan.planned_part import PlannedPart
from planner.plan.prepare import Progress
from planner.plan.stages import Prepared
from planner.scale import axis_factors


def planned_parts(ready: Prepared, material: Material, progress: Progress) -> tuple[PlannedPart, ...]:
    """Scale, mirror, pose and estimate every part."""
    parts = ready.job.parts
    sized = [_at_size(ready, part) for part in parts]
    standing = [
        _stood(ready, part, solid, ready.poses[part.name].down, material)
        for part, solid in zip(parts, sized, strict=True)
    ]
    estimates = estimate_parts(standing, lambda n: progress(f"laying out {parts[n].name}", 0.6 * n / len(parts)))
    planned: list[PlannedPart] = []
    for index, (part, solid, posed_part, estimate) in enumerate(zip(parts, sized, standing, estimates, strict=True)):
        made = _planned(ready, part, solid, posed_part.solid, estimate, material)
        if taken(made.file, [other.file for other in planned]):  # two names may differ only in what a file cannot hold
            made = replace(made, file=made.file.removesuffix(".stl") + f"-{index + 1}.stl")
        planned.append(made)
    return tuple(planned)


def factors_of(part: Part, percent: float) -> Vec3:
    """Return the factors along x, y and z: the job's, or the part's own."""
    return axis_factors(percent if part.scale_percent is None else part.scale_percent)


def with_other_ways(ready: Prepared, parts: tuple[PlannedPart, ...], material: Material) -> tuple[PlannedPart, ...]:
    """Add to every part what standing on its next best pose would cost."""
    others = {part.part.name: part.pose.runner_up_down for part in parts}
    standing = [
        _stood(ready, part.part, part.sized, down, material)
        for part in parts
        if (down := others[part.part.name]) is not None
    ]
    found = {estimate.part: estimate for estimate in estimate_parts(standing)}
    return tuple(replace(part, other_way=found.get(part.part.name)) for part in parts)


def estimated_anew(
    ready: Prepared, parts: Sequence[PlannedPart], downs: Mapping[str, Vec3], material: Material
) -> dict[str, PartEstimate]:
    """Return the estimates of parts in other poses, or with the settings and printer of a changed ``ready``."""
    standing = [_stood(ready, ready.job.part(p.part.name), p.sized, downs[p.part.name], material) for p in parts]
    return {p.part.name: found for p, found in zip(parts, estimate_parts(standing), strict=True)}


def _at_size(ready: Prepared, part: Part) -> Solid:
    """Return a part scaled, and mirrored where the side asks for it, in its drawn orientation."""
    sized = ready.solids[part.name].scaled(factors_of(part, ready.sizing.percent))
    return sized.mirrored() if _mirrored(ready, part) else sized


def _mirrored(ready: Prepared, part: Part) -> bool:
    """Return whether a part is mirrored for the recipient's side."""
    return part.handed and ready.job.size.mirrored


def _stood(ready: Prepared, part: Part, sized: Solid, drawn_down: Vec3, material: Material) -> PosedPart:
    """Stand a part, at size and mirrored, on a drawn direction, ready to be estimated."""
    job, mirrored = ready.job, _mirrored(ready, part)
    down = (-drawn_down[0], drawn_down[1], drawn_down[2]) if mirrored else drawn_down
    factors, drawn = factors_of(part, ready.sizing.percent), ready.solids[part.name]
    return PosedPart(
        solid=posed(sized, down),
        settings=job.settings_at(job.own_height_mm(part.name)),
        printer=job.printer,
        material=material,
        openings=openings_of(ready.surveys[part.name], drawn, sized, down, factors, mirrored=mirrored),
    )


def _planned(
    ready: Prepared, part: Part, sized: Solid, standing: Solid, estimate: PartEstimate, material: Material
) -> PlannedPart:
    """Return the record of one part."""
    factors = factors_of(part, ready.sizing.percent)
    extra_mm3 = estimate.support_mm3 + estimate.kinds_mm3["brim"]
    return PlannedPart(
        part=part,
        solid=ready.solids[part.name],
        survey=ready.surveys[part.name],
        pose=ready.poses[part.name],
        scale_percent=(100.0 * factors[0], 100.0 * factors[1], 100.0 * factors[2]),
        mirrored=_mirrored(ready, part),
        sized=sized,
        posed=standing,
        estimate=estimate,
        other_way=None,
        outline_mm=outline_of(standing),
        mass_g=None if estimate.approximate else mass_g(estimate.deposited_mm3 - extra_mm3, material).value,
        file=f"parts/{file_stem(part, factors, ready.job)}.stl",
    )


def file_stem(part: Part, factors: Vec3, job: Job) -> str:
    """Return a file name that says part, percent and side, such as ``cuff-112pc-left``."""
    percents = [f"{100.0 * factor:.6g}" for factor in factors]
    size = percents[0] if len(set(percents)) == 1 else "x".join(percents)
    return "-".join([file_word(part.name) or "part", f"{size}pc", *([job.size.side] if job.size.side else [])])
