"""Plates of planned parts: timed, weighed and paid for."""

from __future__ import annotations

from collections.abc import Sequence

from planner.job import Job, Material, Printer, printer_named
from planner.layers import Amount, PartEstimate, mass_g, plate_duration_s, plate_kinds_s
from planner.packing import PackedPlate, Plate, plate_stem
from planner.plan.parts.print_turns import turns_of
from planner.plan.plan_record import Totals
from planner.plan.plates.plate_inputs import Makings
from planner.supplies import Cost, Cut, HardwareLine, cost_of


def finished_plates(makings: Makings, packed: Sequence[PackedPlate]) -> tuple[Plate, ...]:
    """Return the plates numbered, with their time and mass on the printers that they are laid out for."""
    job, plates = makings.job, []
    for number, plate in enumerate(packed, 1):
        printer = printer_named(job, plate.printer)
        known, settings = makings.estimates.on(plate.printer), job.settings_at(plate.group.layer_height_mm)
        copies, in_turn = [known[p.part] for p in plate.placements], turns_of(job, printer) is not None
        rough = sorted({e.part for e in copies if e.approximate})
        withheld = f"grams are withheld: {', '.join(rough)} has an unsound mesh" if rough else ""
        plates.append(
            Plate(
                number=number,
                group=plate.group,
                placements=plate.placements,
                duration_s=plate_duration_s(copies, settings=settings, printer=printer, in_turn=in_turn),
                kinds_s=plate_kinds_s(copies, settings=settings, printer=printer, in_turn=in_turn),
                mass_g=None if rough else _plate_g(copies, printer, makings.material),
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


def summed(plates: tuple[Plate, ...]) -> Totals:
    """Return the sums over all plates."""
    if not plates:
        return Totals(duration_s=None, mass_g=None, withheld="no part fits the bed, so there is no plate")
    withheld = "; ".join(plate.withheld for plate in plates if plate.withheld)
    grams = [plate.mass_g for plate in plates if plate.mass_g is not None]
    return Totals(
        duration_s=_sum([plate.duration_s for plate in plates]),
        mass_g=None if withheld else _sum(grams),
        withheld=withheld,
    )


def _sum(amounts: list[Amount]) -> Amount:
    """Return the sum of amounts; ranges add, as errors of one machine do."""
    total = amounts[0]
    for amount in amounts[1:]:
        total += amount
    return total


def costed(
    job: Job,
    material: Material,
    plates: Sequence[Plate],
    totals: Totals,
    hardware: tuple[HardwareLine, ...],
    cuts: tuple[Cut, ...],
) -> Cost | None:
    """Return what plates and what is bought cost; None where their time or mass is withheld."""
    if totals.mass_g is None or totals.duration_s is None:
        return None
    return cost_of(
        job,
        material,
        mass_g=totals.mass_g,
        runs=[(printer_named(job, plate.printer), plate.duration_s) for plate in plates],
        hardware=hardware,
        cuts=cuts,
    )


def by_colour(plates: tuple[Plate, ...]) -> dict[str, float]:
    """Return the grams that each colour needs."""
    need: dict[str, float] = {}
    for plate in plates:
        if plate.mass_g is not None:
            need[plate.group.colour] = need.get(plate.group.colour, 0.0) + plate.mass_g.value
    return need


def _plate_g(copies: Sequence[PartEstimate], printer: Printer, material: Material) -> Amount:
    """Return the grams of a plate; the printer's own log, where there is one, corrects them."""
    grams, ratio = mass_g(sum(estimate.deposited_mm3 for estimate in copies), material), printer.mass_ratio
    if ratio is None:
        return grams
    return Amount(value=grams.value * ratio.value, low=grams.value * ratio.low, high=grams.value * ratio.high)
