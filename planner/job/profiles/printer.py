"""A printer as the rules need it, and nothing that only its maker cares about."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """The build surface. A circle's ``size_mm`` is its diameter twice, a polygon's that of its box.

    Points count from the front left corner of the box, in mm.
    """

    shape: Literal["rectangle", "circle", "polygon"]
    size_mm: tuple[float, float]
    height_mm: float
    margin_mm: float
    """Kept clear at every edge."""
    outline_mm: tuple[tuple[float, float], ...] = ()
    """The corners of a polygon; empty for the other shapes."""
    zones_mm: tuple[tuple[tuple[float, float], ...], ...] = ()
    """Polygons where nothing may lie: clips, a worn spot. No margin is added to them."""

    @property
    def usable_mm(self) -> tuple[float, float]:
        """Width and depth of the box less the margins: more than that never fits, on a polygon less may not."""
        return self.size_mm[0] - 2 * self.margin_mm, self.size_mm[1] - 2 * self.margin_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Undersize:
    """By how much a bore prints smaller than its mesh, on diameter; middle, low and high."""

    upright_mm: Sourced
    """Axis within 45 degrees of vertical."""
    lying_mm: Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibration:
    """The material and nozzle that a printer's offsets were measured with, and the day."""

    material: str
    nozzle_mm: float
    taken: date


@dataclass(frozen=True, slots=True, kw_only=True)
class GoesOn:
    """A printer that goes on where it stopped, after a power cut or an empty spool.

    ``share_percent`` is how many of all its failures are of that kind; ``mark_s`` the time between the places that it
    remembers, from the last of which it prints again; ``resume_s`` what going on takes: heating, priming, a look.
    """

    share_percent: Sourced
    mark_s: Sourced
    resume_s: Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class Printer:
    """One printer. Exactly one of the two corner values is given."""

    name: str
    about: str
    bed: Bed
    nozzle_mm: Sourced
    filament_mm: Sourced
    nozzle_max_c: Sourced
    bed_max_c: Sourced
    enclosed: bool
    hardened_nozzle: bool
    speed_max_mm_s: Sourced
    acceleration_max_mm_s2: Sourced
    corner_deviation_mm: Sourced | None
    corner_speed_mm_s: Sourced | None
    melt_rate_mm3_s: Sourced
    undersize: Undersize
    calibrated: bool
    calibrated_for: Calibration | None
    """What it was measured in; None where nobody did, or did not say."""
    """True where undersize and least gap were fitted from a coupon on this printer."""
    least_gap_mm: Sourced
    heat_up_s: Sourced
    plate_change_s: Sourced
    heating_w: Sourced
    printing_w: Sourced
    failure_per_hour: Sourced
    head_clear_mm: Sourced | None = None
    """How far the body of the head reaches sideways from the nozzle's tip, at its widest; None: nobody measured it."""
    under_gantry_mm: Sourced | None = None
    """How high above the nozzle's tip the lowest thing hangs that crosses the bed with it; None likewise."""
    time_ratio: Sourced | None = None
    """Real hours over planned ones, from the print log; None before five plates."""
    mass_ratio: Sourced | None = None
    """Real grams over planned ones, likewise."""
    fails_by: tuple[tuple[str, Sourced], ...] = ()
    """By part or duty: how much oftener plates of it fail than ``failure_per_hour`` says, from the print log."""
    goes_on: GoesOn | None = None
    """None: whatever fails is begun anew."""
