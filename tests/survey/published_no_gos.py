"""What is refused about the walls of published parts where all of them carry load."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from planner.finding import Vec3, Verdict
from planner.job import read_limits
from planner.mesh import read_solid
from planner.rules.fit.walls.thin_wall_rule import ThinWallRule
from planner.survey import Survey, survey
from tests.shapes import DATA

FOLDER = DATA / "bores"
TO_MM = {"inch": 25.4, "mm": 1.0}
LINE_MM = 0.45
LIMIT_MM = 3 * LINE_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class NoGo:
    """One place that is refused, with what the survey measured there."""

    rule: str
    at_mm: Vec3
    measured_mm: float
    extent_mm: float | None = None
    """How long the place is said to be; a web beside a bore has none."""


@cache
def no_gos(file: str, unit: str | None, percent: float = 100.0, verdict: Verdict = Verdict.NO_GO) -> tuple[NoGo, ...]:
    """Return every place of a part, at a size and duty load, whose wall is refused, measured as drawn; thinnest first.

    With another ``verdict``, the places that are judged so; a web beside a bore is refused or passes.
    """
    s = percent / 100.0
    found, limits = _surveyed(file, unit), read_limits()
    refused = [
        NoGo(rule="bore.edge", at_mm=bore.edge_at_mm, measured_mm=bore.edge_wall_mm)
        for bore in found.bores
        if verdict is Verdict.NO_GO
        and bore.edge_at_mm
        and bore.edge_wall_mm
        and bore.edge_wall_mm * s < LIMIT_MM - 1e-6
    ]
    for place in found.walls.places:
        judged = ThinWallRule(
            part="a",
            duty="load",
            duty_stated=True,
            places=(place,),
            line_width_mm=LINE_MM,
            lines=limits.wall_load_lines,
            limits=limits,
        ).at(s)
        if judged.verdict is verdict:
            length = None if judged.extent is None else judged.extent.length_mm
            refused.append(NoGo(rule=judged.rule, at_mm=place.at_mm, measured_mm=place.thickness_mm, extent_mm=length))
    return tuple(sorted(refused, key=lambda one: (one.measured_mm, one.at_mm)))


@cache
def _surveyed(file: str, unit: str | None) -> Survey:
    """Measure a part once, whatever sizes are asked about."""
    return survey(read_solid(FOLDER / file, unit=unit))
