"""Supplies: which material and why, what to bag, what to cut, what it costs, what to be careful about.

1. ``choose_material(job)`` gives a :class:`MaterialChoice`.
2. ``hardware_list(job, scale)``, ``cut_list(job, scale)`` give what goes into the bag.
3. ``cost_of(...)`` adds filament, energy, hardware, cuts and scrap.
4. ``cautions(job, ...)`` gives the words of care.
"""

from planner.supplies.supplies import (
    Caution,
    Cost,
    CostLine,
    Cut,
    HardwareLine,
    MaterialChoice,
    Rejected,
)

__all__ = [
    "Caution",
    "Cost",
    "CostLine",
    "Cut",
    "HardwareLine",
    "MaterialChoice",
    "Rejected",
]
