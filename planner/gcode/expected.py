"""What the plan means a program to do: one plate, its parts at size, and the machine and material it is for."""

from __future__ import annotations

from dataclasses import dataclass

from planner.gcode.match import MeantPart
from planner.job import Material, Printer, Settings


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """One plate as planned; hours and grams None where the plan withheld them."""

    plate: int
    parts: tuple[MeantPart, ...]
    printer: Printer
    material: Material
    settings: Settings
    duration_s: float | None
    mass_g: float | None
