"""Cost: filament, energy, hardware and cuts of one device, and of one that is delivered after the usual scrap."""

from __future__ import annotations

from collections.abc import Sequence

from planner.job import Job, Material
from planner.layers import ZERO, Amount
from planner.supplies.supplies import Cost, CostLine, Cut, HardwareLine

SCRAP_SHARE = 0.15
"""Of prints that fail, before a log says better. A plan without scrap is wrong: 41 % failed in an open
workshop (Song and Telenko 2019); 15 % is where we start, never 0."""
SCRAP_SOURCE = "start value 15 % before a log; 41.1 % failed in an open workshop (Song & Telenko 2019)"
KWH = 3.6e6
"""Joules, exact."""


def cost_of(
    job: Job,
    material: Material,
    *,
    mass_g: Amount,
    duration_s: Amount,
    plates_n: int,
    hardware: Sequence[HardwareLine],
    cuts: Sequence[Cut],
) -> Cost:
    """Return the cost in the job's currency.

    Delivered = bought things + printed things / (1 - scrap): what fails is printed again, screws are not
    bought again (geometric series).
    """
    calendar = job.calendar
    currency = calendar.currency if calendar else "EUR"
    per_kg, price_source = price_per_kg(job, material)
    filament = mass_g.times(per_kg / 1000.0)
    lines = [
        CostLine(
            what="filament",
            amount=filament,
            why=f"{mass_g.value:.0f} g at {per_kg:g} {currency} a kg ({price_source})",
        )
    ]
    energy = ZERO
    if calendar and calendar.energy_per_kwh is not None:
        kwh = energy_kwh(job, duration_s, plates_n)
        energy = kwh.times(calendar.energy_per_kwh)
        power = f"{job.printer.printing_w.value:g} W printing"
        why = f"{kwh.value:.2f} kWh at {calendar.energy_per_kwh:g} {currency}; {power}"
        lines.append(CostLine(what="energy", amount=energy, why=why))
    bought = ZERO
    for what, rows in (("hardware", hardware), ("cord, straps and padding", cuts)):
        known = sum(row.price or 0.0 for row in rows)
        amount = Amount(value=known, low=known, high=known)
        unknown = sum(row.price is None for row in rows)
        why = f"prices of the job, else {job.tables.prices_source}" + (
            f"; {unknown} lines have no price" if unknown else ""
        )
        lines.append(CostLine(what=what, amount=amount, why=why))
        bought += amount
    printed = filament + energy
    return Cost(
        currency=currency,
        lines=tuple(lines),
        device=printed + bought,
        delivered=printed.times(1.0 / (1.0 - SCRAP_SHARE)) + bought,
        scrap_share=SCRAP_SHARE,
        source=SCRAP_SOURCE,
    )


def price_per_kg(job: Job, material: Material) -> tuple[float, str]:
    """Return what a kilogram costs and who says so: the dearest spool of it in the job, else the profile."""
    stated = [s.price_per_kg for s in job.spools if s.material == material.name and s.price_per_kg is not None]
    return (max(stated), "job file") if stated else (material.price_per_kg.value, material.price_per_kg.source)


def energy_kwh(job: Job, duration_s: Amount, plates_n: int) -> Amount:
    """Return the energy: heating power over each heat-up, printing power over the rest (E = P t)."""
    heating = plates_n * job.printer.heat_up_s.value

    def total(seconds: float) -> float:
        joules = job.printer.heating_w.value * heating + job.printer.printing_w.value * max(seconds - heating, 0.0)
        return joules / KWH

    return Amount(value=total(duration_s.value), low=total(duration_s.low), high=total(duration_s.high))
