"""What the plan expects of a program: one plate, its parts at size, and the machine and material it is for."""

from __future__ import annotations

from dataclasses import dataclass, field

from planner.job import Limits, Material, Printer, Settings, read_limits
from planner.mesh import Solid


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectedPart:
    """A part as the plan prints it: at size in its pose on z = 0, how many copies, and whether on support."""

    name: str
    solid: Solid
    count: int
    support: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """One plate as planned; hours and grams None where the plan withheld them.

    ``limits`` are what differences are compared with: the shipped ones, unless the job has its own.
    """

    plate: int
    parts: tuple[ExpectedPart, ...]
    printer: Printer
    material: Material
    settings: Settings
    duration_s: float | None
    mass_g: float | None
    limits: Limits = field(default_factory=read_limits)
