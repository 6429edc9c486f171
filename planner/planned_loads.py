"""Loads: how long every plate takes on every printer of the job, and which printer cannot run it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

import shapely
import shapely.affinity

from planner.job import Job, Material, Printer
from planner.layers import PartEstimate, estimate_part, plate_duration_s
from planner.planned import PlannedPart
from planner.planned_plates import RISK_ORDER
from planner.plates import Plate, verify_plate
from planner.timing import PlateLoad, family_ratio

MOVING = ("pin", "load")
"""Duties of parts that move on each other: those of one recipient stay on one printer; common practice, no source."""


def printers_of(job: Job) -> tuple[Printer, ...]:
    """Return the printers that may run plates, the job's own first."""
    return (job.printer, *(p for p in job.more_printers if p.name != job.printer.name))


def plate_loads(
    job: Job, material: Material, parts: Sequence[PlannedPart], plates: Sequence[Plate]
) -> tuple[tuple[PlateLoad, ...], tuple[str, ...]]:
    """Return every plate's time on every printer that takes it, and why others do not."""
    barred: list[str] = []
    takes: dict[int, dict[str, float]] = {plate.number: {} for plate in plates}
    for printer in printers_of(job):
        why = _cannot(job, material, printer)
        if why:
            barred.append(f"{printer.name} runs no plate: {why}")
            continue
        estimates = _estimates(job, material, printer, parts)
        for plate in plates:
            if not _lies_on(plate, parts, job, printer):
                barred.append(f"plate {plate.number} does not lie on the bed of {printer.name}")
                continue
            copies = [estimates[p.part] for p in plate.placements]
            takes[plate.number][printer.name] = plate_duration_s(copies, settings=job.settings, printer=printer).value
    duties = {part.part.name: part.part.judged_duty for part in parts}
    loads = []
    for plate in plates:
        mine = {duties[p.part] for p in plate.placements}
        middle = plate.duration_s.value or 1.0
        loads.append(
            PlateLoad(
                plate=plate.number,
                takes_s=takes[plate.number],
                rank=min(RISK_ORDER[duty] for duty in mine),
                ratio=(plate.duration_s.low / middle, 1.0, plate.duration_s.high / middle),
                pieces_n=len(plate.placements),
                moves=bool(mine.intersection(MOVING)),
                ratio_by={
                    p.name: family_ratio(p, _pieces(plate, duties)).ratio for p in printers_of(job) if p.fails_by
                },
            )
        )
    return tuple(loads), tuple(barred)


def _pieces(plate: Plate, duties: Mapping[str, str]) -> dict[tuple[str, str], int]:
    """Return how many pieces of every part, with its duty, lie on a plate."""
    return Counter((p.part, duties[p.part]) for p in plate.placements)


def _estimates(job: Job, material: Material, printer: Printer, parts: Sequence[PlannedPart]) -> dict[str, PartEstimate]:
    """Return the estimates of all parts on a printer; those of the job's own are known."""
    if printer is job.printer:
        return {p.part.name: p.estimate for p in parts if p.estimate is not None}
    return {
        p.part.name: estimate_part(p.posed, settings=job.settings, printer=printer, material=material) for p in parts
    }


def _cannot(job: Job, material: Material, printer: Printer) -> str:
    """Return why a printer cannot run the job's plates at all; empty where it can."""
    if printer is job.printer:
        return ""  # whether that one suits is judged elsewhere, with remedies
    if abs(printer.nozzle_mm.value - job.printer.nozzle_mm.value) > 1e-6:
        return f"its nozzle is {printer.nozzle_mm.value:g} mm, the settings are for {job.printer.nozzle_mm.value:g} mm"
    nozzle, bed = job.settings.nozzle_c or material.nozzle_c, job.settings.bed_c or material.bed_c
    if nozzle.value > printer.nozzle_max_c.value:
        return f"{material.name} wants {nozzle.value:g} °C at the nozzle, it reaches {printer.nozzle_max_c.value:g} °C"
    if bed.value > printer.bed_max_c.value:
        return f"{material.name} wants {bed.value:g} °C at the bed, it reaches {printer.bed_max_c.value:g} °C"
    if material.needs_enclosure and not printer.enclosed:
        return f"{material.name} wants an enclosure"
    if material.abrasive and not printer.hardened_nozzle:
        return f"{material.name} wears its nozzle"
    return ""


def _lies_on(plate: Plate, parts: Sequence[PlannedPart], job: Job, printer: Printer) -> bool:
    """Return whether a plate, moved as a whole to the middle of a printer's bed, lies on it."""
    if printer is job.printer:
        return True
    if plate.height_mm > printer.bed.height_mm:
        return False
    rings = {part.part.name: part.outline_mm for part in parts}
    shapes = []
    for p in plate.placements:
        outer = shapely.affinity.rotate(shapely.Polygon(rings[p.part][0]), p.turn_deg, origin=(0.0, 0.0))
        shapes.append((p, outer.bounds))
    # the middle of everything on the plate, so that a full front corner of a large bed fits a small one
    x0, y0 = (min(getattr(p, c) - (b[k + 2] - b[k]) / 2 for p, b in shapes) for k, c in enumerate(("x_mm", "y_mm")))
    x1, y1 = (max(getattr(p, c) + (b[k + 2] - b[k]) / 2 for p, b in shapes) for k, c in enumerate(("x_mm", "y_mm")))
    by = printer.bed.size_mm[0] / 2 - (x0 + x1) / 2, printer.bed.size_mm[1] / 2 - (y0 + y1) / 2
    moved = [replace(p, x_mm=p.x_mm + by[0], y_mm=p.y_mm + by[1]) for p in plate.placements]
    return not verify_plate(moved, rings, bed=printer.bed, spacing_mm=0.0, brim_mm=plate.group.brim_mm)
