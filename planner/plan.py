"""The whole job, in order: the flow at a glance."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planner.finding import Finding, Vec3, Verdict, by_severity, worst
from planner.fit import Checked, check, lifted, part_window, questions_of, window
from planner.job import Job, Material, Part
from planner.layers import Amount, PartEstimate, estimate_part, mass_g, plate_duration_s
from planner.mesh import Solid, posed
from planner.planned import Plan, PlannedPart, Totals
from planner.plates import Group, Item, PackedPlate, Plate, outline_of, pack, plate_stem, schedule, verify
from planner.prepare import Prepared, Progress, no_progress
from planner.process import settings_findings
from planner.supplies import (
    cautions,
    choose_material,
    cost_of,
    cut_list,
    hardware_list,
    mass_findings,
    material_findings,
    spool_findings,
    worn_g,
)

SEED = 20
PACKING_S = 8.0
"""Time that the packing engine may take for all plates together, once a first answer stands."""
RISK_ORDER = {"pin": 0, "load": 1, "soft": 2, "shell": 3, "cover": 4}
"""Small movers first: the cheap parts reveal a wrong scale before the long ones; common practice, no source."""


def make_plan(ready: Prepared, progress: Progress = no_progress) -> Plan:
    """Plan a prepared job at its scale: every room once, from left to right."""
    job, percent = ready.job, ready.sizing.percent
    checked = check(ready.bound, percent)
    choice = choose_material(job)
    material = next(m for m in job.materials if m.name == choice.choice)
    parts = planned_parts(ready, material, progress)
    estimates = {p.part.name: p.estimate for p in parts if p.estimate is not None}
    settings = settings_findings(job, material, surveys=ready.surveys, estimates=estimates, scale=percent / 100.0)
    progress("packing plates", 0.6)
    packed, lost = packed_plates(job, material, parts)
    plates = finished_plates(job, material, packed, estimates)
    totals = summed(plates)
    hardware = hardware_list(job, percent / 100.0, checked.findings)
    cuts = cut_list(job, percent / 100.0, checked.findings)
    grams = [p.mass_g for p in parts]
    printed = None if None in grams else sum((g or 0.0) * p.part.count for g, p in zip(grams, parts, strict=True))
    worn = None if printed is None else worn_g(job, printed, hardware, cuts)
    findings = all_findings(
        job,
        checked,
        (
            *settings,
            *material_findings(job, material),
            *spool_findings(job, material, by_colour(plates)),
            *mass_findings(job, worn),
            *lost,
        ),
    )
    cost = None
    if totals.mass_g is not None and totals.duration_s is not None:
        cost = cost_of(
            job,
            material,
            mass_g=totals.mass_g,
            duration_s=totals.duration_s,
            plates_n=len(plates),
            hardware=hardware,
            cuts=cuts,
        )
    return Plan(
        job=job,
        scale_percent=percent,
        scale_from=ready.sizing.why,
        verdict=worst(findings),
        findings=findings,
        guesses=checked.guesses,
        questions=questions_of(findings),
        checked_n=checked.checked_n,
        features_n=checked.features_n,
        window=window(ready.bound.rules, percent),
        part_windows=tuple(part_window(ready.bound.rules, percent, part.name) for part in job.parts),
        parts=parts,
        plates=plates,
        runs=schedule(plates, calendar=job.calendar, printer=job.printer),
        totals=totals,
        worn_g=worn,
        material=choice,
        hardware=hardware,
        cuts=cuts,
        cost=cost,
        cautions=cautions(job, material, percent, work=any(f.verdict == "go-with-work" for f in findings)),
    )


def judged_settings(ready: Prepared, progress: Progress = no_progress) -> tuple[str, tuple[Finding, ...]]:
    """Return the material and the findings of the settings rules on the real parts at size."""
    job = ready.job
    choice = choose_material(job).choice
    material = next(m for m in job.materials if m.name == choice)
    parts = planned_parts(ready, material, progress)
    estimates = {p.part.name: p.estimate for p in parts if p.estimate is not None}
    scale = ready.sizing.percent / 100.0
    found = settings_findings(job, material, surveys=ready.surveys, estimates=estimates, scale=scale)
    return choice, by_severity(lifted(finding, job.overrides) for finding in found)


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
    down = pose.down
    if mirrored:
        sized, down = sized.mirrored(), (-down[0], down[1], down[2])
    standing = posed(sized, down)
    estimate = estimate_part(standing, settings=job.settings, printer=job.printer, material=material)
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
        outline_mm=outline_of(standing),
        mass_g=None if estimate.approximate else mass_g(estimate.deposited_mm3 - extra, material).value,
        file=f"parts/{file_stem(part, factors, job)}.stl",
    )


def file_stem(part: Part, factors: Vec3, job: Job) -> str:
    """Return a file name that says part, percent and side, such as ``cuff-112pc-left``."""
    percents = [f"{100.0 * factor:.6g}" for factor in factors]
    size = percents[0] if len(set(percents)) == 1 else "x".join(percents)
    name = "".join(letter if letter.isalnum() or letter in "-_." else "-" for letter in part.name).strip(".")
    return "-".join([name or "part", f"{size}pc", *([job.size.side] if job.size.side else [])])


def packed_plates(
    job: Job, material: Material, parts: tuple[PlannedPart, ...]
) -> tuple[tuple[PackedPlate, ...], tuple[Finding, ...]]:
    """Pack all copies; those that fit no bed stay out, each part with a finding that says so."""
    colour = main_colour(job, material)
    items = [
        Item(
            part=p.part.name,
            copies=p.part.count,
            rings=p.outline_mm,
            group=Group(
                material=material.name,
                colour=colour if p.part.colour == "any" else p.part.colour,
                support=bool(p.estimate and p.estimate.needs_support) and job.settings.support == "where-needed",
                brim_mm=job.settings.brim_mm.value,
            ),
            order=RISK_ORDER[p.part.judged_duty],
        )
        for p in parts
        if p.posed.size_mm[2] <= job.printer.bed.height_mm
    ]
    packing = pack(items, bed=job.printer.bed, spacing_mm=job.settings.spacing_mm.value, seed=SEED, budget_s=PACKING_S)
    lost = {part: reason for part, _, reason in packing.unplaced}
    meant = [item for item in items if item.part not in lost]
    wrong = verify(packing.plates, meant, bed=job.printer.bed, spacing_mm=job.settings.spacing_mm.value)
    if wrong:  # a layout that does not hold is never written
        return (), tuple(_unproved(sentence) for sentence in wrong)
    lost |= {
        p.part.name: "it is higher than the printer" for p in parts if p.posed.size_mm[2] > job.printer.bed.height_mm
    }
    return packing.plates, tuple(_lost(part, reason) for part, reason in sorted(lost.items()))


def _unproved(sentence: str) -> Finding:
    """Say that the layout found does not hold, so that no plate is written."""
    return Finding(
        rule="plate.proof",
        part="",
        feature="plates",
        verdict=Verdict.HOLD,
        why=f"the layout that was found does not hold: {sentence}",
        remedy="report this with the job; plan fewer parts at once meanwhile",
        source="proof of every plate on the true outlines",
    )


def _lost(part: str, reason: str) -> Finding:
    """Say that no plate holds a part."""
    return Finding(
        rule="plate.unplaced",
        part=part,
        feature="plate",
        verdict=Verdict.NO_GO,
        why=f"no copy of {part} lies on a plate: {reason}",
        remedy="print it smaller, lay it another way, take off the brim, or use a larger printer",
        source="packing, proved on the true outlines",
    )


def main_colour(job: Job, material: Material) -> str:
    """Return the colour of parts that may have any: that of the fullest spool of the material."""
    spools = [spool for spool in job.spools if spool.material == material.name]
    return max(spools, key=lambda spool: spool.left_g or 0.0).colour if spools else "any"


def finished_plates(
    job: Job, material: Material, packed: tuple[PackedPlate, ...], estimates: Mapping[str, PartEstimate]
) -> tuple[Plate, ...]:
    """Return the plates numbered, with their time and mass."""
    plates = []
    for number, plate in enumerate(packed, 1):
        copies = [estimates[p.part] for p in plate.placements]
        rough = sorted({e.part for e in copies if e.approximate})
        withheld = f"grams are withheld: {', '.join(rough)} has an unsound mesh" if rough else ""
        plates.append(
            Plate(
                number=number,
                group=plate.group,
                placements=plate.placements,
                duration_s=plate_duration_s(copies, settings=job.settings, printer=job.printer),
                mass_g=None if rough else mass_g(sum(e.deposited_mm3 for e in copies), material),
                height_mm=max(e.height_mm for e in copies),
                fill=plate.fill,
                file=plate_stem(number) + ".3mf",
                withheld=withheld,
            )
        )
    return tuple(plates)


def summed(plates: tuple[Plate, ...]) -> Totals:
    """Return the sums over all plates."""
    if not plates:
        return Totals(duration_s=None, mass_g=None, withheld="no part fits the bed, so there is no plate")
    withheld = "; ".join(plate.withheld for plate in plates if plate.withheld)
    grams = [plate.mass_g for plate in plates if plate.mass_g is not None]
    return Totals(
        duration_s=_sum([plate.duration_s for plate in plates]),
        mass_g=None if withheld else _sum(grams),
        withheld=withheld,
    )


def _sum(amounts: list[Amount]) -> Amount:
    """Return the sum of amounts; ranges add, as errors of one machine do."""
    total = amounts[0]
    for amount in amounts[1:]:
        total += amount
    return total


def by_colour(plates: tuple[Plate, ...]) -> dict[str, float]:
    """Return the grams that each colour needs."""
    need: dict[str, float] = {}
    for plate in plates:
        if plate.mass_g is not None:
            need[plate.group.colour] = need.get(plate.group.colour, 0.0) + plate.mass_g.value
    return need


def all_findings(job: Job, checked: Checked, others: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return all findings, worst first, with the holds that people have lifted."""
    return by_severity((*checked.findings, *(lifted(finding, job.overrides) for finding in others)))


def solids_by_name(plan: Plan) -> dict[str, Solid]:
    """Return the posed solids by part name."""
    return {planned.part.name: planned.posed for planned in plan.parts}
