"""Supplies: which material and why, what to bag, what to cut, what it costs, what to mind.

1. ``choose_material(job)`` gives a :class:`MaterialChoice`; ``material_findings``, ``spool_findings`` judge it.
2. ``hardware_list(job, factor, findings)``, ``cut_list(...)`` give what goes into the bag.
3. ``cost_of(...)`` adds filament, energy, hardware, cuts and scrap; ``worn_g(...)`` weighs what is worn.
4. ``cautions(job, ...)`` gives the cautions.
"""

from planner.supplies.cautions import cautions
from planner.supplies.choose_material import choose_material, material_findings, suits_findings
from planner.supplies.cost import cost_of, energy_kwh
from planner.supplies.cut_list import cut_list
from planner.supplies.hardware_list import hardware_list
from planner.supplies.spool_grams import grams_left, spool_findings
from planner.supplies.supplies import Caution, Cost, Cut, HardwareLine, MaterialChoice
from planner.supplies.worn_mass import mass_findings, worn_g

__all__ = [
    "Caution",
    "Cost",
    "Cut",
    "HardwareLine",
    "MaterialChoice",
    "cautions",
    "choose_material",
    "cost_of",
    "cut_list",
    "energy_kwh",
    "grams_left",
    "hardware_list",
    "mass_findings",
    "material_findings",
    "spool_findings",
    "suits_findings",
    "worn_g",
]
