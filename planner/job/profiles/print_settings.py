"""Print settings: what the maker sets by hand for a plate."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """One set of print settings; temperatures None: the material's own middle values."""

    name: str
    layer_height_mm: Sourced
    first_layer_height_mm: Sourced
    line_width_mm: Sourced
    contours_n: int
    solid_top_mm: Sourced
    solid_bottom_mm: Sourced
    infill_percent: Sourced
    outer_contour_speed_mm_s: Sourced
    inner_contour_speed_mm_s: Sourced
    solid_fill_speed_mm_s: Sourced
    infill_speed_mm_s: Sourced
    first_layer_speed_mm_s: Sourced
    travel_speed_mm_s: Sourced
    acceleration_mm_s2: Sourced
    fan_percent: Sourced
    least_layer_s: Sourced
    support: Literal["where-needed", "none"]
    self_supporting_deg: Sourced
    """Steepest lean from vertical that prints without support."""
    brim_mm: Sourced
    spacing_mm: Sourced
    """Between parts only, never to the bed's edge."""
    nozzle_c: Sourced | None = None
    bed_c: Sourced | None = None
    bridge_speed_mm_s: Sourced | None = None
    """Of lines over air, from matter to matter; None: as outer contours."""
