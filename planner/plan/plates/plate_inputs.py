"""What the plates of one job are made from, wherever plates are timed, parted, moved or dated."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from planner.job import Calendar, Job, Material
from planner.plan.parts.estimates import Estimates
from planner.plan.plan_record import Plan
from planner.plan.planned_part import PlannedPart
from planner.plan.stages import Sized


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateInputs:
    """The job, its material, its parts as they stand, how many openings need work, and what parts take on printers."""

    job: Job
    material: Material
    parts: Sequence[PlannedPart]
    works_n: int
    estimates: Estimates

    @classmethod
    def at(cls, sized: Sized, job: Job) -> PlateInputs:
        """Return what plates of sized parts are made from, under the calendar of a job."""
        known = Estimates(job, sized.material, sized.parts)
        return cls(job=job, material=sized.material, parts=sized.parts, works_n=sized.works_n, estimates=known)

    @classmethod
    def of(cls, plan: Plan) -> PlateInputs:
        """Return what a plan's plates are made from."""
        return cls.at(plan.stage.sized, plan.job)

    def under(self, calendar: Calendar | None) -> PlateInputs:
        """Return the same under another calendar."""
        return replace(self, job=replace(self.job, calendar=calendar))
