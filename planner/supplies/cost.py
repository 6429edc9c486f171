"""Cost: filament, energy, hardware and cuts of one device, and of one that is delivered after the usual scrap."""

from __future__ import annotations

from collections.abc import Sequence

from planner.job import Job, Material, Printer
from planner.layers import ZERO, Amount
from planner.supplies.supplies import Cost, CostLine, Cut, HardwareLine

SCRAP_SHARE = 0.15
"""Of prints that fail, before a log says better. A plan without scrap is wrong: 41 % failed in an open
workshop (Song and Telenko 2019); 15 % is where we start, never 0."""
SCRAP_SOURCE = "15 % until a log says better; 41.1 % failed in an open workshop (Song & Telenko 2019)"
KWH = 3.6e6
"""Joules, exact."""


def cost_of(
    job: Job,
    material: Material,
    *,
    mass_g: Amount,
    runs: Sequence[tuple[Printer, Amount]],
    hardware: Sequence[HardwareLine],
    cuts: Sequence[Cut],
) -> Cost:
    """Return the cost in the job's currency; ``runs`` are the plates' printers and seconds.

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
        kwh = energy_kwh(runs)
        energy = kwh.times(calendar.energy_per_kwh)
        drawn = {printer.name: f"{printer.printing_w.value:g} W printing" for printer, _ in runs}
        power = ", ".join(f"{name} {watts}" if len(drawn) > 1 else watts for name, watts in drawn.items())
        why = f"{kwh.value:.2f} kWh at {calendar.energy_per_kwh:g} {currency}; {power}"
        lines.append(CostLine(what="energy", amount=energy, why=why))
    bought = ZERO
    for what, rows in (("hardware", hardware), ("cord, straps and padding", cuts)):
        known = sum(row.price or 0.0 for row in rows)
        amount = Amount(value=known, low=known, high=known)
        unknown = sum(row.price is None for row in rows)
        why = f"the job's prices, or else {job.tables.prices_source}" + (
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


def energy_kwh(runs: Sequence[tuple[Printer, Amount]]) -> Amount:
    """Return the energy of plates: each printer's heating power over its heat-up, then its printing power (E = P t)."""
    total = ZERO
    for printer, seconds in runs:
        heating_s, printing_w = printer.heat_up_s.value, printer.printing_w.value
        heat = printer.heating_w.value * heating_s / KWH
        low, value, high = (
            heat + printing_w * max(each - heating_s, 0.0) / KWH for each in (seconds.low, seconds.value, seconds.high)
        )
        total += Amount(value=value, low=low, high=high)
    return total
