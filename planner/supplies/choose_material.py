"""Which material, and why: heat decides first, then what this printer can do, then strength and ease."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.job import Job, Material
from planner.rules import chosen_material, heat_finding, objections, other_objections, resting
from planner.supplies.supplies import MaterialChoice, Rejected


def choose_material(job: Job) -> MaterialChoice:
    """Choose among the materials at hand; a stated one is kept, with what speaks against it.

    Order: heat, what the printer can do, strength across the layers, little warp, price.
    """
    against = {material.name: objections(job, material) for material in job.materials}
    if job.material is not None:
        told = ("stated in the job", *(f"but {reason}" for reason in against[job.material.name]))
        return MaterialChoice(choice=job.material.name, reasons=told, rejected=())
    best = chosen_material(job)
    assert best is not None  # a job that has none to choose from is asked for one before
    rejected = [
        Rejected(material=m.name, reason=against[m.name][0] if against[m.name] else _second(best, m))
        for m in job.materials
        if m is not best
    ]
    return MaterialChoice(choice=best.name, reasons=_reasons(job, best, against[best.name]), rejected=tuple(rejected))


def _second(best: Material, other: Material) -> str:
    """Say why another material that would do is not the first choice."""
    if round(other.warp.value * 3) > round(best.warp.value * 3):
        return f"it would work, but warps more ({other.warp.value:g} against {best.warp.value:g} of 1)"
    mine, theirs = best.strength_across_layers_mpa.value, other.strength_across_layers_mpa.value
    return f"it would work, but is weaker across the layers ({theirs:g} against {mine:g} MPa) or costs more"


def _reasons(job: Job, best: Material, against: tuple[str, ...]) -> tuple[str, ...]:
    """Say why the choice is the choice."""
    told = [f"no material suits: {reason}" for reason in against]
    told.append(f"{heat_finding(job, best).why} ({best.service_c.source})")
    told.append(f"it prints on {job.printer.name}: nozzle {best.nozzle_c.value:g} °C, bed {best.bed_c.value:g} °C")
    across = best.strength_across_layers_mpa
    told.append(f"strength across the layers {across.value:g} MPa ({across.source})")
    if any(spool.material == best.name for spool in job.spools):
        told.append("you have a spool of it")
    return tuple(told)


def material_findings(job: Job, material: Material) -> tuple[Finding, ...]:
    """Judge the chosen material: by heat, then go, or a hold for each other objection."""
    heat, against = heat_finding(job, material), other_objections(job, material)
    if not against:
        suits = Finding(
            rule="material.suits",
            part="",
            feature=material.name,
            verdict=Verdict.GO,
            why=f"{job.printer.name} prints {material.name}",
            source="the profiles of printer and material",
        )
        return heat, suits
    holds = [
        Finding(
            rule="material.suits",
            part="",
            feature=material.name,
            verdict=Verdict.HOLD,
            why=f"{material.name}: {reason}",
            remedy="choose another material or another printer",
            source="the profiles of printer and material",
            question="Which other material is at hand?",
        )
        for reason in against
    ]
    return heat, *holds


def suits_findings(job: Job) -> tuple[Finding, ...]:
    """Judge the material that would be chosen for a job, with what that rests on; nothing where there is none."""
    if not job.materials:
        return ()
    name = choose_material(job).choice
    return resting(job, lambda other: material_findings(other, other.material_named(name)))
