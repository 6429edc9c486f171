"""Units by the endings of names: ``_mm`` is millimetres, ``_mm3_s`` cubic millimetres a second."""

from __future__ import annotations

ENDINGS = {
    "mm3_s": "mm³/s",
    "mm_s2": "mm/s²",
    "mm_s": "mm/s",
    "g_cm3": "g/cm³",
    "per_kwh": "currency/kWh",
    "per_kg": "currency/kg",
    "per_hour": "1/h",
    "per_lost_g": "1/g",
    "price_each": "currency",
    "price": "currency",
    "min_cm2": "min/cm²",
    "n_per_mm": "N/mm",
    "mm3": "mm³",
    "mm2": "mm²",
    "mm": "mm",
    "min": "min",
    "mpa": "MPa",
    "kwh": "kWh",
    "percent": "%",
    "years": "years",
    "days": "days",
    "lines": "lines",
    "layers": "layers",
    "nozzles": "nozzle diameters",
    "deg": "°",
    "h": "h",
    "c": "°C",
    "g": "g",
    "s": "s",
    "w": "W",
    "n": "N",
}
"""Longest first, so that ``_mm3_s`` is not read as seconds."""


def unit_of(name: str) -> str:
    """Return the unit that a name's ending tells; empty where it tells none.

    >>> unit_of("melt_rate_mm3_s"), unit_of("percent"), unit_of("name")
    ('mm³/s', '%', '')
    """
    return next((unit for ending, unit in ENDINGS.items() if f"_{name}".endswith(f"_{ending}")), "")
