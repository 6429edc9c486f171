"""Bind the wall rules: thin places, walls between one line and two, and edges that run out."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planner.finding import Vec3
from planner.job import Part
from planner.rules.fit.part_case import PartCase
from planner.rules.fit.walls.lying_floor import LyingFloor
from planner.rules.fit.walls.thin_wall_rule import ThinWallRule, WallRunOut
from planner.rules.fit.walls.wall_lines import WallBetween
from planner.rules.rule import Rule
from planner.survey import RunOut

SHARP_DEG = 45.0
"""On skin an edge with less matter in it than this is work; a wider one is broken with all other edges."""
TOWARD_COS = 0.5
"""An edge lies on the skin side where a face of it looks within 60 degrees of that way."""


def wall_rules(case: PartCase) -> list[Rule]:
    """Return the rules about the walls of one part; none where no two sides are opposed."""
    part, survey, limits = case.part, case.sized, case.job.limits
    width_mm = case.job.settings.line_width_mm.value
    rules: list[Rule] = []
    places = survey.walls.places
    if places:
        settings = case.job.settings_at(case.job.own_height_mm(part.name))
        floor = LyingFloor.of(limits, case.down, settings.layer_height_mm.value, loaded=case.loaded)
        rules.append(
            ThinWallRule(
                part=part.name,
                duty=part.judged_duty,
                duty_stated=part.duty_stated,
                places=places,
                line_width_mm=width_mm,
                lines=limits.wall_load_lines if case.loaded else limits.wall_plain_lines,
                limits=limits,
                floor=floor,
            )
        )
        standing = [place for place in places if not floor.holds(place, 1.0, math.inf)]
        if standing:  # layers leave no gap between lines
            rules.append(
                WallBetween(
                    part=part.name,
                    thickness_mm=standing[0].thickness_mm,
                    at_mm=standing[0].at_mm,
                    line_width_mm=width_mm,
                    limits=limits,
                )
            )
    out = survey.walls.run_outs
    if out:
        on_skin = [edge for edge in out if part.skin_side and _toward(edge, part.skin_toward)]
        rules.append(_run_out(part, on_skin or out, on_skin=bool(on_skin)))
    return rules


def _run_out(part: Part, edges: Sequence[RunOut], *, on_skin: bool) -> WallRunOut:
    """Return the rule about some sharp edges of a part."""
    sharpest = min(edges, key=lambda edge: edge.angle_deg)
    return WallRunOut(
        part=part.name,
        edges_n=len(edges),
        length_mm=sum(edge.length_mm for edge in edges),
        angle_deg=sharpest.angle_deg,
        at_mm=sharpest.at_mm,
        on_skin=on_skin,
    )


def _toward(edge: RunOut, skin: Vec3 | None) -> bool:
    """Return whether a sharp edge looks toward the skin; any does where that side is not told."""
    if skin is None or edge.angle_deg >= SHARP_DEG:
        return edge.angle_deg < SHARP_DEG
    length = sum(value * value for value in skin) ** 0.5
    return any(sum(a * b for a, b in zip(way, skin, strict=True)) > TOWARD_COS * length for way in edge.outward)
