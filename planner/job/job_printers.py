"""The printers of a job: its own first, then those that may run plates beside it, and why one cannot."""

from __future__ import annotations

from planner.job.job import Job
from planner.job.profiles.material import Material
from planner.job.profiles.printer import Printer

PRINTER_ASKED = "printer"
"""Name of the question for the printer where nobody stated one."""


def printers_of(job: Job) -> tuple[Printer, ...]:
    """Return the printers that may run plates, the job's own first."""
    return (job.printer, *(p for p in job.more_printers if p.name != job.printer.name))


def printer_named(job: Job, name: str) -> Printer:
    """Return a printer of the job by its name; the job's own for an empty one."""
    return next((printer for printer in printers_of(job) if printer.name == name), job.printer)


def why_not(job: Job, material: Material, printer: Printer) -> str:
    """Return why a printer cannot run the job's plates at all; empty where it can."""
    if printer is job.printer:
        return ""  # whether that one suits is judged elsewhere, with remedies
    if abs(printer.nozzle_mm.value - job.printer.nozzle_mm.value) > 1e-6:
        return f"its nozzle is {printer.nozzle_mm.value:g} mm, the settings are for {job.printer.nozzle_mm.value:g} mm"
    needs = (
        ("nozzle", job.settings.nozzle_c, material.nozzle_c, printer.nozzle_max_c),
        ("bed", job.settings.bed_c, material.bed_c, printer.bed_max_c),
    )
    for what, stated, usual, most in needs:
        least_c = usual.low if stated is None else stated.value  # what a person wrote is not lowered for a printer
        if least_c > most.value:
            least = "" if stated is not None or usual.low == usual.value else " or more"
            return f"{material.name} needs {least_c:g} °C{least} at the {what}, and it reaches {most.value:g} °C"
    if material.needs_enclosure and not printer.enclosed:
        return f"{material.name} needs an enclosure"
    if material.abrasive and not printer.hardened_nozzle:
        return f"{material.name} would wear its nozzle"
    return ""


def fit_printers(job: Job) -> tuple[Printer, ...]:
    """Return the printers on which some material that the job may choose can be printed, the job's own first."""
    return tuple(p for p in printers_of(job) if any(not why_not(job, material, p) for material in job.materials))
