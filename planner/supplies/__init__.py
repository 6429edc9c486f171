"""Supplies: which material and why, what to bag, what to cut, what it costs, what to mind.

1. ``choose_material(job)`` gives a :class:`MaterialChoice`; ``material_findings``, ``spool_findings`` judge it.
2. ``built(job, factor, findings)`` decides hardware, cuts and work once; all who list or draw them read that.
3. ``cost_of(...)`` adds filament, energy, hardware, cuts and scrap; ``worn_g(...)`` weighs what is worn.
4. ``cautions(job, ...)`` gives the cautions.
"""

from planner.supplies.built.bag_lines import place_of
from planner.supplies.built.built import Built, built
from planner.supplies.built.built_sizes import nearest_stock
from planner.supplies.cautions import cautions
from planner.supplies.choose_material import choose_material, material_findings, suits_findings
from planner.supplies.cost import cost_of, energy_kwh
from planner.supplies.spool_grams import grams_left, spool_findings
from planner.supplies.supplies import BenchWork, Caution, Cost, Cut, HardwareLine, MaterialChoice
from planner.supplies.worn_mass import mass_findings, worn_g

__all__ = [
    "BenchWork",
    "Built",
    "Caution",
    "Cost",
    "Cut",
    "HardwareLine",
    "MaterialChoice",
    "built",
    "cautions",
    "choose_material",
    "cost_of",
    "energy_kwh",
    "grams_left",
    "mass_findings",
    "material_findings",
    "nearest_stock",
    "place_of",
    "spool_findings",
    "suits_findings",
    "worn_g",
]
