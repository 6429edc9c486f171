"""A printer, as far as the rules need to know it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """The build surface. Points count from the front left corner of its box."""

    shape: Literal["rectangle", "circle", "polygon"] = "rectangle"
    """Its outline."""
    size_mm: tuple[float, float]
    """Width and depth; a circle takes diameter_mm instead, a polygon outline_mm."""
    height_mm: float
    """The highest that a part may be."""
    margin_mm: float
    """Kept clear at every edge."""
    outline_mm: tuple[tuple[float, float], ...] = ()
    """The corners of a polygon, in order."""
    zones_mm: tuple[tuple[tuple[float, float], ...], ...] = ()
    """Polygons where nothing may lie, such as clips or a worn spot; no margin is added to them."""

    @property
    def usable_mm(self) -> tuple[float, float]:
        """Width and depth of the box less the margins: more than that never fits, on a polygon less may not."""
        return self.size_mm[0] - 2 * self.margin_mm, self.size_mm[1] - 2 * self.margin_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Undersize:
    """By how much a bore prints smaller than its mesh, on its diameter."""

    upright_mm: Sourced
    """Axis within 45 degrees of vertical."""
    lying_mm: Sourced
    """Axis nearer to horizontal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibration:
    """The material and nozzle that a printer's offsets were measured with, and the day."""

    material: str
    """The coupon's material."""
    nozzle_mm: float
    """The nozzle it was printed with."""
    taken: date
    """The day it was measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GoesOn:
    """A printer that continues where it stopped, after a power cut or an empty spool."""

    share_percent: Sourced
    """How many of all its failures are of that kind."""
    mark_s: Sourced
    """Time between the places that it remembers; it continues from the last of them."""
    resume_s: Sourced
    """What continuing takes: heating, priming, a look."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Printer:
    """One printer. Exactly one of the two corner values is given."""

    name: str
    about: str
    """What kind of printer it is, in words."""
    bed: Bed
    nozzle_mm: Sourced
    """Diameter of the nozzle."""
    filament_mm: Sourced
    """Diameter of the filament."""
    nozzle_max_c: Sourced
    """The hottest that the nozzle can be."""
    bed_max_c: Sourced
    """The hottest that the bed can be."""
    enclosed: bool = False
    """Whether a cabinet keeps it warm."""
    hardened_nozzle: bool = False
    """Whether abrasive materials may pass the nozzle."""
    speed_max_mm_s: Sourced
    """The fastest that the head moves."""
    acceleration_max_mm_s2: Sourced
    """The greatest acceleration of the head."""
    corner_deviation_mm: Sourced | None
    """How far it may cut a corner; this or corner_speed_mm_s."""
    corner_speed_mm_s: Sourced | None
    """Speed through a right-angled corner; this or corner_deviation_mm."""
    melt_rate_mm3_s: Sourced
    """The most plastic that the hot end melts."""
    undersize: Undersize
    calibrated: bool = False
    """Whether undersize and least gap were measured on a coupon from this printer."""
    calibrated_for: Calibration | None = None
    least_gap_mm: Sourced
    """The smallest running gap, on each side, that does not fuse."""
    heat_up_s: Sourced
    """From switching on to the first line."""
    plate_change_s: Sourced
    """Clearing the bed and starting the next plate."""
    heating_w: Sourced
    """Power while it heats up."""
    printing_w: Sourced
    """Mean power while it prints."""
    failure_per_hour: Sourced
    """Chance that a plate fails in an hour of printing."""
    head_clear_mm: Sourced | None = None
    """How far the head's body reaches sideways from the nozzle's tip, at its widest."""
    under_gantry_mm: Sourced | None = None
    """How high above the nozzle's tip the lowest thing hangs that crosses the bed."""
    time_ratio: Sourced | None = None
    """Real hours over planned ones, from the print log."""
    mass_ratio: Sourced | None = None
    """Real grams over planned ones, from the print log."""
    fails_by: tuple[tuple[str, Sourced], ...] = ()
    goes_on: GoesOn | None = None
