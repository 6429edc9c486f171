"""Print settings: what the maker sets by hand for a plate."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """One set of print settings."""

    name: str
    layer_height_mm: Sourced
    """Height of every layer but the first."""
    first_layer_height_mm: Sourced
    """Height of the first layer."""
    line_width_mm: Sourced
    """Width of a line of plastic."""
    contours_n: int = 3
    """Lines round every outline."""
    solid_top_mm: Sourced
    """Thickness of the solid layers under a top face."""
    solid_bottom_mm: Sourced
    """Thickness of the solid layers over a bottom face."""
    infill_percent: Sourced
    """How full the inside is."""
    outer_contour_speed_mm_s: Sourced
    """Speed of the outermost line."""
    inner_contour_speed_mm_s: Sourced
    """Speed of the lines inside it."""
    solid_fill_speed_mm_s: Sourced
    """Speed of solid layers."""
    infill_speed_mm_s: Sourced
    """Speed of the infill."""
    first_layer_speed_mm_s: Sourced
    """Speed of the whole first layer."""
    travel_speed_mm_s: Sourced
    """Speed of moves that lay nothing."""
    acceleration_mm_s2: Sourced
    """Acceleration of all moves."""
    fan_percent: Sourced
    """Fan speed."""
    least_layer_s: Sourced
    """The least time that a layer takes, so that it can cool."""
    support: Literal["where-needed", "none"]
    """Whether support is printed under what would hang in the air."""
    self_supporting_deg: Sourced
    """Steepest lean from vertical that prints without support."""
    brim_mm: Sourced
    """Width of the brim round every part; 0: none."""
    spacing_mm: Sourced
    """Between parts only, never to the bed's edge."""
    nozzle_c: Sourced | None = None
    """Nozzle temperature; left out: the material's own."""
    bed_c: Sourced | None = None
    """Bed temperature; left out: the material's own."""
    bridge_speed_mm_s: Sourced | None = None
    """Speed of lines over air; left out: that of outer contours."""
