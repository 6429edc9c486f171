"""Beds of different sizes: which printer a part is laid out for, and plates brought to the bed that runs them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.job import Job, Material, Printer, joined, printers_of, usable_ground, why_not
from planner.packing import Item, Placement, Plate, lies_alone, outline_box_mm, turn_faults, verify_plate
from planner.plan.parts.pieces_one_by_one import room_of
from planner.plan.planned_part import PlannedPart

Rings = tuple[tuple[tuple[float, float], ...], ...]


def able(job: Job, material: Material) -> tuple[Printer, ...]:
    """Return the printers that can print a material with the job's settings, the job's own first."""
    return tuple(printer for printer in printers_of(job) if not why_not(job, material, printer))


def dealt(job: Job, material: Material, items: Sequence[Item]) -> dict[str, list[Item]]:
    """Return for every printer the items that are laid out for it: the first on whose bed they lie alone.

    Parts that are to lie together go to the first printer that takes them all. What lies on no bed stays with the
    job's own, where it is named as unplaced.
    """
    printers = able(job, material)
    if len(printers) == 1:
        return {printers[0].name: list(items)}
    together = joined(job.calendar.together) if job.calendar is not None else ()
    found: dict[str, list[Item]] = {printer.name: [] for printer in printers}
    fits = {item.part: [printer.name for printer in printers if takes(printer, item)] for item in items}
    for item in items:
        mates = next((names for names in together if item.part in names), frozenset({item.part}))
        all_of = [name for name in fits[item.part] if all(name in fits.get(mate, [name]) for mate in mates)]
        found[next(iter(all_of or fits[item.part]), printers[0].name)].append(item)
    return found


def takes(printer: Printer, item: Item) -> bool:
    """Return whether one copy lies alone on a printer's bed and under its height."""
    return item.height_mm <= printer.bed.height_mm and lies_alone(item, printer.bed)


def brought_to(
    plate: Plate, printer: Printer, parts: Sequence[PlannedPart], *, spacing_mm: float = 0.0
) -> tuple[Placement, ...] | None:
    """Return a plate's placements, moved as a whole to the middle of a printer's bed; None where that does not hold.

    The bed, its zones and margins, and where copies are printed one after another the room round that printer's
    head, are proved anew. A plate that was laid out for the printer stays where it is.
    """
    if plate.printer == printer.name:
        return plate.placements
    rings: Mapping[str, Rings] = {part.part.name: part.outline_mm for part in parts}
    if plate.height_mm > printer.bed.height_mm:
        return None
    boxes = [outline_box_mm(rings[p.part], p) for p in plate.placements]
    x0, y0 = min(box[0] for box in boxes), min(box[1] for box in boxes)
    x1, y1 = max(box[2] for box in boxes), max(box[3] for box in boxes)
    # the middle of everything on the plate, so that a full front corner of a large bed fits a small one
    a, b, c, d = usable_ground(printer.bed, zones=False).bounds
    dx, dy = (a + c - x0 - x1) / 2, (b + d - y0 - y1) / 2
    moved = tuple(replace(p, x_mm=p.x_mm + dx, y_mm=p.y_mm + dy) for p in plate.placements)
    brim_mm = plate.group.brim_mm
    if plate.in_turn:
        heights = {part.part.name: float(part.posed.size_mm[2]) for part in parts}
        room = room_of(printer)
        if room is None or turn_faults(moved, rings, heights, room, brim_mm):
            return None
    if verify_plate(moved, rings, bed=printer.bed, spacing_mm=spacing_mm, brim_mm=brim_mm):
        return None
    return moved


def fill_on(plate: Plate, old: Printer, new: Printer) -> float:
    """Return a plate's fill on another bed."""
    return float(plate.fill * usable_ground(old.bed).area / usable_ground(new.bed).area)
