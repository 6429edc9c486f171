"""Gaps of plates: pieces laid beside what lies there already, where that saves a plate, and proved."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.job import Job, Printer, printer_named
from planner.packing import Item, PackedPlate, Rules, refitted, verify

Copy = tuple[str, int]


def fuller(
    job: Job, plate: PackedPlate, copies: Sequence[Copy], items: Mapping[str, Item], rules: Rules
) -> PackedPlate | None:
    """Return a plate with as many more copies as find room in its gaps; None where none does, or it does not hold.

    Copies of another group, or higher than the plate's printer, are not asked about. ``rules`` are those of that
    printer.
    """
    printer = printer_named(job, plate.printer)
    mine = [
        (part, copy)
        for part, copy in copies
        if items[part].group == plate.group and items[part].height_mm <= printer.bed.height_mm
    ]
    spacing_mm = job.settings.spacing_mm.value
    found = refitted(plate, mine, items, bed=printer.bed, spacing_mm=spacing_mm, rules=rules) if mine else plate
    more = len(found.placements) > len(plate.placements)
    return found if more and not _faults(found, items, printer, spacing_mm, rules) else None


def without_spare_plates(
    job: Job, plates: Sequence[PackedPlate], items: Sequence[Item], rules: Mapping[str, Rules]
) -> list[PackedPlate]:
    """Return plates without those whose pieces all find room in gaps of plates for other, larger beds.

    The emptiest are tried first. Parts that a rule of ``[plan] together`` binds stay where they are. ``rules`` are
    by printer.
    """
    known, rows = {item.part: item for item in items}, list(plates)
    for plate in sorted(plates, key=lambda each: each.fill):
        if any(p.part in names for p in plate.placements for names in rules[plate.printer].together):
            continue
        left, tried = [(p.part, p.copy) for p in plate.placements], list(rows)
        for number, other in enumerate(rows):
            if other.printer == plate.printer or not left:
                continue
            found = fuller(job, other, left, known, rules[other.printer])
            if found is not None:
                tried[number] = found
                there = {(p.part, p.copy) for p in found.placements}
                left = [copy for copy in left if copy not in there]
        if not left:
            rows = [each for each in tried if each is not plate]
    return rows


def _faults(
    plate: PackedPlate, items: Mapping[str, Item], printer: Printer, spacing_mm: float, rules: Rules
) -> tuple[str, ...]:
    """Return what is wrong with one plate, proved from scratch under copies numbered again."""
    seen: dict[str, int] = {}
    placements = []
    for p in plate.placements:
        seen[p.part] = seen.get(p.part, 0) + 1
        placements.append(replace(p, copy=seen[p.part]))
    return verify(
        [replace(plate, placements=tuple(placements))],
        [replace(items[part], copies=n) for part, n in seen.items()],
        bed=printer.bed,
        spacing_mm=spacing_mm,
        rules=replace(rules, together=()),
    )
