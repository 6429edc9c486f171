"""Bind the rules of bearings: the depth of each pocket, and what goes through each bore, bought or printed."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Hardware, Job
from planner.rules.fit.bearings.bearing_fit import BearingDeep, shaft_finding, unknown_shaft
from planner.rules.of_job.mates.ring_rules import ring_rules
from planner.rules.rule import Rule, constants
from planner.survey import Bore, Survey

SAME_MM = 0.15
"""A stated size this near to a stock size means that size."""
COAXIAL_MM, PARALLEL_COS = 0.5, 0.999
"""Bores of one part whose axes lie this near are one axis; common practice, no source."""
SHAFTS = ("machine-screw", "dowel-pin", "binding-post")


def bearing_rules(
    job: Job, surveys: Mapping[str, Survey], downs: Mapping[str, Vec3], claims: Sequence[Claim]
) -> list[Rule]:
    """Return the rules of every bearing in every pocket that it sits in, and of printed pegs in what is bought."""
    pegs, filled = ring_rules(job, surveys, downs, claims)
    rules: list[Rule] = [*pegs]
    for claim in (one for one in claims if one.hardware.kind == "bearing"):
        bearing, width = claim.hardware, width_mm(job, claim.hardware)
        if width is not None:
            rules.append(
                BearingDeep(
                    part=claim.part,
                    feature=claim.bore.id,
                    bearing=bearing.name,
                    deep_mm=claim.bore.depth_mm,
                    width_mm=width,
                    at_mm=claim.bore.centre_mm,
                    least_share=job.limits.of("bearing.deep", "least_share"),
                )
            )
        play = job.limits.of("bearing.shaft", "play_mm")
        shafts = {
            other.hardware.name: other.hardware
            for other in claims
            if other.part == claim.part and other.hardware.kind in SHAFTS and not other.hardware.printed
            if _coaxial(claim.bore, other.bore)
        }
        rules += constants(
            shaft_finding(
                part=claim.part,
                feature=claim.bore.id,
                bearing=bearing.name,
                bore_mm=bearing.diameter_mm,
                shaft=shaft.name,
                shaft_mm=shaft.diameter_mm,
                play_mm=play,
            )
            for shaft in shafts.values()
        )
        bought = any(
            other.kind in SHAFTS and not other.printed and 0.0 <= bearing.diameter_mm - other.diameter_mm <= play.value
            for other in job.hardware
        )
        if not shafts and not bought and (claim.part, claim.bore.id) not in filled:
            rules += constants([unknown_shaft(claim.part, claim.bore, bearing.name, bearing.diameter_mm, play)])
    return rules


def width_mm(job: Job, bearing: Hardware) -> float | None:
    """Return how wide a bearing is, by its bore and outside; None where no table lists it."""
    for stock in job.tables.bearings:
        if stock.outside_mm is None or stock.width_mm is None:
            continue
        apart = max(abs(stock.diameter_mm.value - bearing.diameter_mm), abs(stock.outside_mm.value - bearing.seated_mm))
        if apart <= SAME_MM:
            return stock.width_mm.value
    return None


def _coaxial(one: Bore, other: Bore) -> bool:
    """Return whether two bores of a part lie on one axis."""
    along = math.fsum(a * b for a, b in zip(one.axis, other.axis, strict=True))
    away = [b - a for a, b in zip(one.centre_mm, other.centre_mm, strict=True)]
    reach = math.fsum(a * b for a, b in zip(away, one.axis, strict=True))
    aside = math.sqrt(max(0.0, math.fsum(a * a for a in away) - reach * reach))
    return abs(along) >= PARALLEL_COS and aside <= COAXIAL_MM
