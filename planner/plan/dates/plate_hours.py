"""How long every plate takes on every printer of the job, and which printer cannot run it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import accumulate

from planner.job import Printer, printer_named, printers_of, usable_ground, why_not
from planner.layers import plate_duration_s
from planner.packing import PackedPlate, Plate, Run, plate_stem
from planner.phrases import listed
from planner.plan.parts.pieces_one_by_one import piece_times_s
from planner.plan.plates.bed_of_printer import brought_to, fill_on
from planner.plan.plates.finished_plates import finished_plates
from planner.plan.plates.packed_plates import RISK_ORDER
from planner.plan.plates.plate_inputs import PlateInputs
from planner.schedule import PlateLoad, family_ratio

MOVING = ("pin", "load")
"""Duties of parts that move on each other: those of one recipient stay on one printer; common practice, no source."""


def plate_loads(inputs: PlateInputs, plates: Sequence[Plate]) -> tuple[tuple[PlateLoad, ...], tuple[str, ...]]:
    """Return every plate's time on every printer that takes it, and why others do not."""
    job, barred = inputs.job, list[str]()
    takes: dict[int, dict[str, float]] = {plate.number: {} for plate in plates}
    for printer in printers_of(job):
        why = why_not(job, inputs.material, printer)
        if why:
            barred.append(f"{printer.name} runs no plate: {why}")
            continue
        too_large: list[int] = []
        for plate in plates:
            if brought_to(plate, printer, inputs.parts) is None:
                too_large.append(plate.number)
                continue
            copies = [inputs.estimates.on(printer.name)[p.part] for p in plate.placements]
            settings = job.settings_at(plate.group.layer_height_mm)
            takes[plate.number][printer.name] = plate_duration_s(
                copies, settings=settings, printer=printer, in_turn=plate.in_turn
            ).value
        if too_large:
            barred.append(_barred(too_large, len(plates), printer, job.printer))
    duties = {part.part.name: part.part.judged_duty for part in inputs.parts}
    loads = []
    for plate in plates:
        mine = {duties[p.part] for p in plate.placements}
        middle = plate.duration_s.value or 1.0
        loads.append(
            PlateLoad(
                plate=plate.number,
                takes_s=takes[plate.number],
                rank=min(RISK_ORDER[duty] for duty in mine),
                first=bool(plate.joint),
                ratio=(plate.duration_s.low / middle, 1.0, plate.duration_s.high / middle),
                pieces_n=len(plate.placements),
                moves=bool(mine.intersection(MOVING)),
                ends=_ends(inputs, plate) if plate.in_turn else (),
                ratio_by={
                    p.name: family_ratio(p, _pieces(plate, duties)).ratio for p in printers_of(job) if p.fails_by
                },
            )
        )
    return tuple(loads), tuple(barred)


def _barred(plates: Sequence[int], plates_n: int, printer: Printer, own: Printer) -> str:
    """Say in one sentence which plates a printer's bed does not take; where none, how it gets some.

    Plates are laid out for the job's own printer, so the one with the smallest bed serves all when it is the own one.
    """
    if len(plates) == plates_n:
        smaller = usable_ground(printer.bed).area < usable_ground(own.bed).area
        way = f": with it as printer in [job], and {own.name} in [plan] printers, plates are laid out for its bed first"
        return f"no plate of this job lies on the bed of {printer.name}{way if smaller else ''}"
    if len(plates) == 1:
        return f"plate {plates[0]} does not lie on the bed of {printer.name}"
    return f"plates {listed(str(number) for number in plates)} do not lie on the bed of {printer.name}"


def _ends(inputs: PlateInputs, plate: Plate) -> tuple[float, ...]:
    """Return the share of a plate's run at which the bed is hot, then that at which each of its pieces is finished."""
    job, printer = inputs.job, printer_named(inputs.job, plate.printer)
    known, height = inputs.estimates.on(plate.printer), plate.group.layer_height_mm
    pieces = piece_times_s(job, plate.placements, known, printer, height)
    heat = plate.kinds_s["heating up"] / sum(plate.kinds_s.values())
    return (heat, *(end / sum(pieces) for end in accumulate(pieces)))


def _pieces(plate: Plate, duties: Mapping[str, str]) -> dict[tuple[str, str], int]:
    """Return how many pieces of every part, with its duty, lie on a plate."""
    return Counter((p.part, duties[p.part]) for p in plate.placements)


def on_their_printers(inputs: PlateInputs, plates: Sequence[Plate], runs: Sequence[Run]) -> tuple[Plate, ...]:
    """Return plates with those that the calendar gives to another printer brought to its bed, with its hours."""
    job = inputs.job
    given = {run.plate: run.printer for run in runs if run.start is not None}
    found = []
    for plate in plates:
        to = printer_named(job, given.get(plate.number, plate.printer))
        placements = brought_to(plate, to, inputs.parts)
        if to.name == plate.printer or placements is None:
            found.append(plate)
            continue
        fill = fill_on(plate, printer_named(job, plate.printer), to)
        packed = PackedPlate(group=plate.group, placements=placements, fill=fill, printer=to.name, joint=plate.joint)
        made = finished_plates(inputs, (packed,))[0]
        found.append(replace(made, number=plate.number, file=plate_stem(plate.number) + ".3mf"))
    return tuple(found)
