"""Sums over plates: hours, grams, grams by colour, and what they cost."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal

from planner.job import Job, Material, printer_named
from planner.layers import Amount
from planner.packing import Plate
from planner.plan.plan_record import Totals
from planner.supplies import Cost, Cut, HardwareLine, cost_of

NO_PLATE = "no part fits the bed, so there is no plate"


def summed(plates: Sequence[Plate], none_why: str = NO_PLATE) -> Totals:
    """Return the sums over all plates; ``none_why`` says why there is none."""
    if not plates:
        return Totals(duration_s=None, mass_g=None, withheld=none_why)
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


def by_colour(plates: Iterable[Plate], end: Literal["value", "low", "high"] = "value") -> dict[str, float]:
    """Return the grams that each colour needs, as expected or at an end of their range."""
    need: dict[str, float] = {}
    for plate in plates:
        if plate.mass_g is not None:
            need[plate.group.colour] = need.get(plate.group.colour, 0.0) + getattr(plate.mass_g, end)
    return need
