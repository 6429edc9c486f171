"""Rules about the size of single copies: scale, unit, stretch and height."""

from __future__ import annotations

from dataclasses import dataclass, replace

from planner.finding import Finding
from planner.gcode.copies.copy_compare import CopyReport
from planner.gcode.matching.match import Match
from planner.gcode.program_finding import motion_finding
from planner.job import Limits
from planner.mesh import Solid

UNITS = (
    (25.4, "inches taken for mm"),
    (1 / 25.4, "mm taken for inches"),
    (10.0, "cm taken for mm"),
    (0.1, "mm taken for cm"),
)
UNIT_SLACK = 0.04


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Copy:
    """One copy with its match, the part's solid, and its report; None where the size alone tells enough."""

    match: Match
    report: CopyReport | None
    solid: Solid

    @property
    def part(self) -> str:
        """Name of the part."""
        return self.match.part

    @property
    def stretch(self) -> tuple[float, float]:
        """Size over the planned one along x and y."""
        return (self.report.fit.x_share, self.report.fit.y_share) if self.report else (self.match.across_share,) * 2

    @property
    def tall_mm(self) -> float:
        """Height of the piece, from where it would stand."""
        if self.report is None:
            return self.match.upward_share * self.solid.size_mm[2]
        return self.report.top_mm - self.report.fit.pose.z_offset_mm

    def as_measured(self) -> Match:
        """Return the match with its exact sizes."""
        x, y = self.stretch
        mirrored = self.report.fit.pose.mirrored if self.report else self.match.mirrored
        upward = self.tall_mm / self.solid.size_mm[2]
        return replace(self.match, across_share=(x * y) ** 0.5, upward_share=upward, mirrored=mirrored)


def _off(copy: Copy, limits: Limits) -> bool:
    """Return whether a copy is of another size from above: a side differs by more than both limits."""
    (x, y, _), least = copy.solid.size_mm, limits.of("program.stretch", "side_mm").value
    share = limits.of("program.stretch", "side_percent").value / 100.0
    return any(
        abs(factor - 1.0) * side > max(least, share * side) for factor, side in zip(copy.stretch, (x, y), strict=True)
    )


def _even(copy: Copy, layer_mm: float, limits: Limits) -> bool:
    """Return whether a copy has one and the same other size in all three directions."""
    x, y = copy.stretch
    alike = limits.of("program.scale", "alike_percent").value / 100.0
    under, most = (limits.of("program.scale", key).value for key in ("under_layers", "over_layers"))
    middle = (x * y) ** 0.5
    over = copy.tall_mm - middle * copy.solid.size_mm[2]
    slack = layer_mm * max(middle, 1.0)
    return abs(x / y - 1.0) < alike and -under * slack < over < most * slack


def size_finding(copy: Copy, layer_mm: float, limits: Limits) -> Finding | None:
    """Say that a copy is of another scale or unit, or stretched."""
    if not _off(copy, limits):
        return None
    x, y = copy.stretch
    factor = (x * y) ** 0.5
    unit = next((mistake for value, mistake in UNITS if abs(factor / value - 1.0) < UNIT_SLACK), "")
    if unit or _even(copy, layer_mm, limits):
        said = f"{copy.part} prints at {100 * factor:.1f} % of the planned size" + (f" ({unit})" if unit else "")
        return motion_finding(
            "program.unit" if unit else "program.scale",
            wrong=True,
            part=copy.part,
            measured=100.0 * factor,
            limit=100.0,
            unit="%",
            why=said,
            remedy="the parts are written at size: load them without scaling, in mm",
        )
    worse = max(x, y, key=lambda value: abs(value - 1.0))
    upward = copy.tall_mm / copy.solid.size_mm[2]
    return motion_finding(
        "program.stretch",
        wrong=True,
        part=copy.part,
        measured=100.0 * worse,
        limit=100.0,
        unit="%",
        why=(
            f"{copy.part} is stretched: {100 * x:.1f} % of the planned size along its x, {100 * y:.1f} % along y, "
            f"{100 * upward:.1f} % in height"
        ),
        remedy="the parts are written at size: load them without scaling",
    )


def height_finding(copy: Copy, layer_mm: float, limits: Limits) -> Finding | None:
    """Say that a copy ends too early or too late."""
    planned = copy.solid.size_mm[2]
    under, over = (limits.of("program.height", key).value for key in ("under_layers", "over_layers"))
    least = min(copy.report.least_top_mm if copy.report else planned, planned) - under * layer_mm
    high_enough = least <= copy.tall_mm <= planned + over * layer_mm
    if high_enough or (_off(copy, limits) and _even(copy, layer_mm, limits)):
        return None
    return motion_finding(
        "program.height",
        wrong=True,
        part=copy.part,
        measured=copy.tall_mm,
        limit=planned,
        unit="mm",
        why=(
            f"{copy.part} is {copy.tall_mm:.2f} mm high, planned {planned:.2f} mm "
            f"({100 * copy.tall_mm / planned:.0f} %)"
        ),
        remedy="make the program again from the plate's file, whole and unscaled",
    )
