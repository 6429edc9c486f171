"""As laid: plates of the last plan stay as they are where their pieces are still missing and still lie well."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from shapely import Polygon

from planner.job import printer_named, usable_ground
from planner.packing import PackedPlate, Placement, Plate, counted, verify_plate
from planner.plan.after_failure.pieces_again import plate_again
from planner.plan.dates.as_it_stands import Stood
from planner.plan.plates.bed_of_printer import able
from planner.plan.plates.finished_plates import finished_plate
from planner.plan.plates.plate_inputs import PlateInputs


def as_laid(inputs: PlateInputs, plates: Sequence[Plate], stood: Sequence[Stood]) -> list[Plate]:
    """Return plates of the same pieces, as many as can be as the last plan laid them; copies keep their numbers."""
    if not stood or any(plate.in_turn for plate in plates):
        return list(plates)
    missing = sum((Counter(counted(plate.placements)) for plate in plates), Counter[str]())
    copies = {part: [p for plate in plates for p in plate.placements if p.part == part] for part in missing}
    kept = list[Plate]()
    for each in stood:
        plate = _laid(inputs, plates, each) if Counter(each.pieces) <= missing else None
        if plate is not None:
            own = tuple(replace(p, copy=copies[p.part].pop(0).copy) for p in plate.placements)
            kept.append(replace(plate, placements=own))
            missing -= Counter(each.pieces)
    rest = list[Plate]()
    for plate in plates:
        here = Counter(counted(plate.placements)) & missing
        again = plate_again(inputs, plate, here)
        if again is not None:
            own = tuple(replace(p, copy=copies[p.part].pop(0).copy) for p in again.placements)
            rest.append(replace(again, placements=own))
            missing -= here
    numbered = [*kept, *rest]
    return [finished_plate(inputs, _packed(plate), number) for number, plate in enumerate(numbered, 1)]


def _packed(plate: Plate) -> PackedPlate:
    """Return a plate as it is laid out."""
    return PackedPlate(
        group=plate.group, placements=plate.placements, fill=plate.fill, printer=plate.printer, joint=plate.joint
    )


def _laid(inputs: PlateInputs, plates: Sequence[Plate], stood: Stood) -> Plate | None:
    """Return a plate as the last plan laid it; None where its printer cannot print it, or it does not lie well now."""
    groups = {plate.group for plate in plates for p in plate.placements if p.part in stood.pieces}
    if len(groups) != 1 or stood.printer not in {p.name for p in able(inputs.job, inputs.material)}:
        return None
    group, printer = groups.pop(), printer_named(inputs.job, stood.printer)
    rings = {part.part.name: part.outline_mm for part in inputs.parts}
    if verify_plate(stood.placements, rings, bed=printer.bed, spacing_mm=0.0, brim_mm=group.brim_mm):
        return None
    same = next((p for p in plates if counted(p.placements) == stood.pieces), None)
    joint = same.joint if same else ""
    outlines_mm2 = sum(Polygon(rings[p.part][0], rings[p.part][1:]).area for p in stood.placements)
    fill = float(outlines_mm2 / usable_ground(printer.bed).area)
    placements: tuple[Placement, ...] = stood.placements
    packed = PackedPlate(group=group, placements=placements, fill=fill, printer=printer.name, joint=joint)
    made = finished_plate(inputs, packed, 1)
    return made if made.height_mm <= printer.bed.height_mm else None
