"""The material that a part is judged in: the job's own, or the one that is chosen among those at hand."""

from __future__ import annotations

from planner.job import Job, Material
from planner.rules.fit.heat_over import heat_finding, too_hot


def objections(job: Job, material: Material) -> tuple[str, ...]:
    """Return every reason against a material, the deciding one first."""
    heat = [f"{heat_finding(job, material).why}"] if too_hot(job, material) else []
    return (*heat, *other_objections(job, material))


def other_objections(job: Job, material: Material) -> tuple[str, ...]:
    """Return the reasons against a material beside heat."""
    printer, found = job.printer, []
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


def _rank(material: Material) -> tuple[float, float, float]:
    """Return what orders the materials that would do: warp in thirds, strength across layers, price."""
    return round(material.warp.value * 3), -material.strength_across_layers_mpa.value, material.price_per_kg.value


def chosen_material(job: Job) -> Material | None:
    """Return the job's material; else the best of those at hand that nothing speaks against, or of all; None: none."""
    if job.material is not None:
        return job.material
    fit = [material for material in job.materials if not objections(job, material)]
    return min(fit or job.materials, key=_rank, default=None)
