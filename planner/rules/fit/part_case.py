"""What a rule of fit may look at when it is bound to one part."""

from __future__ import annotations

from dataclasses import dataclass

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Job, Part
from planner.survey import LayerView, Survey

LOADED = ("load", "pin")
"""Duties that carry load."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartCase:
    """One part of a job, measured.

    Parameters
    ----------
    survey
        As drawn.
    sized
        The survey at size where the part is scaled unevenly, else as drawn.
    claims
        The hardware in its bores.
    down
        The drawn direction that faces the bed.
    view
        What a line can lay of it in its pose; None where that is not known.
    """

    job: Job
    part: Part
    survey: Survey
    sized: Survey
    claims: tuple[Claim, ...]
    down: Vec3
    view: LayerView | None

    @property
    def loaded(self) -> bool:
        """Whether the part carries load."""
        return self.part.judged_duty in LOADED
