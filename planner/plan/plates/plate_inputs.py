"""Makings: what the plates of one job are made from, wherever plates are timed, parted, moved or dated."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from planner.job import Calendar, Job, Material
from planner.plan.parts.estimates import Estimates
from planner.plan.plan_record import Plan, PlannedPart


@dataclass(frozen=True, slots=True, kw_only=True)
class Makings:
    """The job, its material, its parts as they stand, how many openings need work, and what parts take on printers."""

    job: Job
    material: Material
    parts: Sequence[PlannedPart]
    works_n: int
    estimates: Estimates

    @classmethod
    def of(cls, plan: Plan) -> Makings:
        """Return what a plan's plates are made from."""
        known = Estimates(plan.job, plan.material, plan.parts)
        return cls(job=plan.job, material=plan.material, parts=plan.parts, works_n=plan.works_n, estimates=known)

    def under(self, calendar: Calendar | None) -> Makings:
        """Return the same under another calendar."""
        return replace(self, job=replace(self.job, calendar=calendar))
