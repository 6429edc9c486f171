"""Estimates of a job's parts on every printer that may run its plates."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.job import Job, Material, printer_named
from planner.layers import PartEstimate, estimate_part
from planner.plan.planned_part import PlannedPart


class Estimates:
    """Looks parts up by printer and name; those of the job's own printer are known, others are made when asked for."""

    def __init__(self, job: Job, material: Material, parts: Sequence[PlannedPart]) -> None:
        self.job, self.material, self.parts = job, material, parts
        own = {p.part.name: p.estimate for p in parts if p.estimate is not None}
        self.known: dict[str, Mapping[str, PartEstimate]] = {job.printer.name: own}

    def on(self, printer: str) -> Mapping[str, PartEstimate]:
        """Return the estimates on a printer by part; an empty name is the job's own."""
        printer = printer or self.job.printer.name
        if printer not in self.known:
            named, job = printer_named(self.job, printer), self.job
            self.known[printer] = {
                p.part.name: estimate_part(
                    p.posed,
                    settings=job.settings_at(job.own_height_mm(p.part.name)),
                    printer=named,
                    material=self.material,
                )
                for p in self.parts
                if p.estimate is not None
            }
        return self.known[printer]
