"""Which material, and why: heat decides first, then what this printer can do, then strength and ease."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.job import Job, Material
from planner.supplies.supplies import MaterialChoice, Rejected

HEAT_RESERVE_C = 10.0
"""A part is used at most this far below softening; from memory, for amorphous plastics."""
RESERVE_SOURCE = "used up to 10 °C below softening (from memory)"


def hottest_c(job: Job) -> tuple[float, str] | None:
    """Return the hottest that the device gets and where, or None where nothing is stated."""
    places = [(place.hottest_c.value, f"in the {place.name} ({place.hottest_c.source})") for place in job.use.kept]
    if job.use.hottest_c is not None:
        places.append((job.use.hottest_c, "as stated"))
    return max(places, default=None)


def serves_to_c(material: Material) -> float:
    """Return the highest temperature at which a part of this material is used, in C."""
    return material.softens_c.value - HEAT_RESERVE_C


def objections(job: Job, material: Material) -> tuple[str, ...]:
    """Return every reason against a material, the deciding one first."""
    printer, found = job.printer, []
    hot = hottest_c(job)
    most = serves_to_c(material)
    if hot is not None and hot[0] > most:
        found.append(
            f"it can be used up to {most:g} °C (it softens at {material.softens_c.value:g} °C), "
            f"but it gets {hot[0]:g} °C {hot[1]}"
        )
    if material.nozzle_c.low > printer.nozzle_max_c.value:
        found.append(
            f"it needs a nozzle of {material.nozzle_c.low:g} °C, "
            f"{printer.name} reaches {printer.nozzle_max_c.value:g} °C"
        )
    if material.bed_c.low > printer.bed_max_c.value:
        found.append(
            f"it needs a bed of {material.bed_c.low:g} °C, {printer.name} reaches {printer.bed_max_c.value:g} °C"
        )
    if material.needs_enclosure and not printer.enclosed:
        found.append(f"it needs an enclosure, {printer.name} is open")
    if material.abrasive and not printer.hardened_nozzle:
        found.append("it wears an ordinary nozzle")
    if material.flexible and any(part.judged_duty in ("load", "pin") for part in job.parts):
        found.append("it bends like rubber, and some parts carry load")
    return tuple(found)


def choose_material(job: Job) -> MaterialChoice:
    """Choose among the materials at hand; a stated one is kept, with what speaks against it.

    Order: heat, what the printer can do, strength across the layers, little warp, price.
    """
    against = {material.name: objections(job, material) for material in job.materials}
    if job.material is not None:
        told = ("stated in the job", *(f"but {reason}" for reason in against[job.material.name]))
        return MaterialChoice(choice=job.material.name, reasons=told, rejected=())
    fit = [material for material in job.materials if not against[material.name]]
    ranked = sorted(fit or job.materials, key=_rank)
    best = ranked[0]
    rejected = [
        Rejected(material=m.name, reason=against[m.name][0] if against[m.name] else _second(best, m))
        for m in job.materials
        if m is not best
    ]
    return MaterialChoice(choice=best.name, reasons=_reasons(job, best, against[best.name]), rejected=tuple(rejected))


def _rank(material: Material) -> tuple[float, float, float]:
    """Return what orders the materials that would do: warp in thirds, strength across layers, price."""
    return round(material.warp.value * 3), -material.strength_across_layers_mpa.value, material.price_per_kg.value


def _second(best: Material, other: Material) -> str:
    """Say why another material that would do is not the first choice."""
    if round(other.warp.value * 3) > round(best.warp.value * 3):
        return f"it would work, but warps more ({other.warp.value:g} against {best.warp.value:g} of 1)"
    mine, theirs = best.strength_across_layers_mpa.value, other.strength_across_layers_mpa.value
    return f"it would work, but is weaker across the layers ({theirs:g} against {mine:g} MPa) or costs more"


def _reasons(job: Job, best: Material, against: tuple[str, ...]) -> tuple[str, ...]:
    """Say why the choice is the choice."""
    hot = hottest_c(job)
    most = serves_to_c(best)
    told = [f"no material suits: {reason}" for reason in against]
    told.append(
        f"it can be used up to {most:g} °C (it softens at {best.softens_c.value:g} °C; {RESERVE_SOURCE})"
        + (f"; the hottest place is {hot[0]:g} °C {hot[1]}" if hot else "; the job does not say where it is kept")
    )
    told.append(f"it prints on {job.printer.name}: nozzle {best.nozzle_c.value:g} °C, bed {best.bed_c.value:g} °C")
    across = best.strength_across_layers_mpa
    told.append(f"strength across the layers {across.value:g} MPa ({across.source})")
    if any(spool.material == best.name for spool in job.spools):
        told.append("you have a spool of it")
    return tuple(told)


def material_findings(job: Job, material: Material) -> tuple[Finding, ...]:
    """Judge the chosen material: go, or a hold for each objection."""
    against = objections(job, material)
    if not against:
        hot = hottest_c(job)
        return (
            Finding(
                rule="material.suits",
                part="",
                feature=material.name,
                verdict=Verdict.GO,
                measured=hot[0] if hot else None,
                limit=serves_to_c(material),
                unit="C",
                why=f"{material.name} can be used up to {serves_to_c(material):g} °C",
                source=material.softens_c.source,
                caution="" if hot else "The job does not say where it is kept; a parked car reaches 70 °C.",
            ),
        )
    return tuple(
        Finding(
            rule="material.suits",
            part="",
            feature=material.name,
            verdict=Verdict.HOLD,
            why=f"{material.name}: {reason}",
            remedy="choose another material or another printer, or state where the device is kept",
            source=f"{material.softens_c.source}; {RESERVE_SOURCE}",
            question="Which other material is at hand?",
        )
        for reason in against
    )
