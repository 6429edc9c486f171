"""Plates of planned parts: timed and weighed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planner.job import Material, Printer, printer_named
from planner.layers import Amount, PartEstimate, mass_g, plate_duration_s, plate_kinds_s
from planner.packing import PackedPlate, Plate, plate_stem
from planner.phrases import listed
from planner.plan.parts.pieces_one_by_one import turns_of
from planner.plan.plates.plate_inputs import PlateInputs


def finished_plates(inputs: PlateInputs, packed: Sequence[PackedPlate]) -> tuple[Plate, ...]:
    """Return the plates numbered, with their time and mass on the printers that they are laid out for."""
    job, plates = inputs.job, []
    for number, plate in enumerate(packed, 1):
        printer = printer_named(job, plate.printer)
        known, settings = inputs.estimates.on(plate.printer), job.settings_at(plate.group.layer_height_mm)
        copies, in_turn = [known[p.part] for p in plate.placements], turns_of(job, printer) is not None
        rough = sorted({e.part for e in copies if e.approximate})
        withheld = f"grams are withheld: the mesh of {listed(rough)} is not sound" if rough else ""
        plates.append(
            Plate(
                number=number,
                group=plate.group,
                placements=plate.placements,
                duration_s=plate_duration_s(copies, settings=settings, printer=printer, in_turn=in_turn),
                kinds_s=plate_kinds_s(copies, settings=settings, printer=printer, in_turn=in_turn),
                mass_g=None if rough else _plate_g(copies, printer, inputs.material),
                height_mm=max(e.height_mm for e in copies),
                fill=plate.fill,
                file=plate_stem(number) + ".3mf",
                withheld=withheld,
                printer=printer.name,
                joint=plate.joint,
                in_turn=in_turn,
            )
        )
    return tuple(plates)


def finished_plate(inputs: PlateInputs, packed: PackedPlate, number: int) -> Plate:
    """Return one plate under a number, with its time and mass."""
    made = finished_plates(inputs, (packed,))[0]
    return replace(made, number=number, file=plate_stem(number) + ".3mf")


def _plate_g(copies: Sequence[PartEstimate], printer: Printer, material: Material) -> Amount:
    """Return the grams of a plate; the printer's own log, where there is one, corrects them."""
    grams, ratio = mass_g(sum(estimate.deposited_mm3 for estimate in copies), material), printer.mass_ratio
    if ratio is None:
        return grams
    return Amount(value=grams.value * ratio.value, low=grams.value * ratio.low, high=grams.value * ratio.high)
