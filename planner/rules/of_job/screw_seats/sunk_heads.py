"""Seats that are sunk for a screw's head: they scale, and the head does not."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from planner.assembly import CLAMPED, Claim, head_mm, head_seats, stays_open, stock_of
from planner.job import Job, Part
from planner.rules.fit.bores.bore_case import BoreCase
from planner.survey import Bore, Survey

DRILLS_PER_MM = 10.0
"""Twist drills are sold in steps of 0.1 mm (ISO 235)."""


def sunk_heads(job: Job, part: Part, survey: Survey, claims: Sequence[Claim]) -> list[tuple[Bore, Claim]]:
    """Return the steps of a part's bores that the heads of screws sink into, with the screws.

    A step that somebody lists as open takes no head; a guess of that kind does not count.
    """
    return [
        (step, claim)
        for claim in claims
        if claim.hardware.kind == CLAMPED
        for step in head_seats(survey, claim.bore, claim.hardware.diameter_mm)
        if not stays_open(job, part.name, step, stated=True)
    ]


def head_case(job: Job, step: BoreCase, claim: Claim) -> BoreCase:
    """Return the case of a step with the head in it, or the washer under that head, instead of the screw.

    It may be drilled wider, no deeper than it is now. Too wide it never is.
    """
    screw = stock_of(job.tables, CLAMPED, claim.hardware.diameter_mm)
    washer = screw.washer_mm if screw and claim.hardware.washers else None
    need_mm = (washer.value if washer else head_mm(claim.hardware.diameter_mm)) + job.limits.seat_clearance_mm.value
    return replace(
        step,
        hardware=f"{'washer' if washer else 'head'} of {claim.hardware.name}",
        bore=replace(step.bore, through=False),
        need_mm=need_mm,
        most_mm=math.inf,
        drill_mm=math.ceil(need_mm * DRILLS_PER_MM - 1e-9) / DRILLS_PER_MM,
        bush_mm=math.inf,
        larger=(),
        smaller=(),
        stepped=True,
        fit_words="its seat",
        clearance_source=f"ISO 4762, from memory; {job.limits.seat_clearance_mm.source}",
    )
