"""What a rule of fit may look at when it is bound to one part."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Job, Part
from planner.rules.fit.strength.bore_force import BoreForce
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
    forces
        What its bores take under its load cases, by bore; a printed pin itself by ``PIN``.
    """

    job: Job
    part: Part
    survey: Survey
    sized: Survey
    claims: tuple[Claim, ...]
    down: Vec3
    view: LayerView | None
    forces: Mapping[str, tuple[BoreForce, ...]] = field(default_factory=dict)

    @property
    def loaded(self) -> bool:
        """Whether the part carries load."""
        return self.part.judged_duty in LOADED
