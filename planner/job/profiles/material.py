"""A filament material: what heats, prints, carries, bends and costs."""

from __future__ import annotations

from dataclasses import dataclass

from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """One material. ``nozzle_c`` and ``bed_c`` carry the range that the material allows."""

    name: str
    about: str
    density_g_cm3: Sourced
    softens_c: Sourced
    nozzle_c: Sourced
    bed_c: Sourced
    melt_rate_mm3_s: Sourced
    needs_enclosure: bool
    abrasive: bool
    fumes: bool
    """Enclosure and ventilation are the usual caution."""
    flexible: bool
    dry_first: bool
    strength_along_mpa: Sourced
    strength_across_layers_mpa: Sourced
    warp: Sourced
    """Readiness to warp, 0 (none) to 1 (strong)."""
    fan_percent: Sourced
    price_per_kg: Sourced
