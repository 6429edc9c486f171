"""Bores that a person has spoken of: by hardware that is stated, what sits over it, cords, and what is left open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planner.assembly.bore_ends import CLAMPED
from planner.assembly.claim import bores_near, claims_of
from planner.assembly.pegs.pegs_in_bores import pegs_in_bores
from planner.assembly.pilot_in_part import in_part
from planner.assembly.screw_heads import head_seats
from planner.job import BoreEnds, Cord, Job, Limits
from planner.survey import Survey

DOUBTFUL = frozenset(("kind", "diameter_mm", "fit"))
"""Keys that leave open what goes through a bore."""


def spoken_bores(job: Job, surveys: Mapping[str, Survey]) -> frozenset[tuple[str, str]]:
    """Return part and bore of everything that a person has spoken of: hardware, seats, cords, and what is left open."""
    sure = tuple(one for one in job.hardware if not DOUBTFUL & set(one.guessed))
    claims = claims_of(replace(job, hardware=sure), surveys).claims
    found = {(claim.part, claim.bore.id) for claim in claims}
    found |= {
        (claim.part, seat.id)
        for claim in claims
        if claim.hardware.kind == CLAMPED
        for seat in head_seats(surveys[claim.part], claim.bore, claim.hardware.diameter_mm)
    }
    # Also where two of them contend for a bore.
    named: list[tuple[str, float | None, BoreEnds | None]]
    named = [(part, here.bore_mm, here.bores) for one in sure for part in one.joins for here in (in_part(one, part),)]
    named += [_channel(cord, surveys[cord.part], job.limits) for cord in job.cords if not cord.guessed]
    named += [(part, one.bore_mm, one.bores) for one in job.left_open if not one.guessed for part in one.parts]
    stated = replace(job, joints=tuple(joint for joint in job.joints if not joint.guessed))
    found |= {key for key, one in pegs_in_bores(stated, surveys, found).items() if one.how}
    return frozenset(found) | {
        (part, bore.id)
        for part, mm, ends in named
        if mm is not None
        for bore in bores_near(surveys[part], mm, job.limits, ends)
    }


def _channel(cord: Cord, survey: Survey, limits: Limits) -> tuple[str, float | None, BoreEnds | None]:
    """Return the part and size of a cord's channel: it goes through, so blind bores beside it are another matter."""
    size = cord.channel_mm
    through = size is not None and any(bore.through for bore in bores_near(survey, size, limits))
    return cord.part, size, "through" if through else None
