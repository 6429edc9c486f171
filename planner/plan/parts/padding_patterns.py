"""Patterns of all padding of a job, at its size: meshes are read and sized, nothing else is planned."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date

from planner.errors import JobError
from planner.finding import Finding, Vec3
from planner.job import Job
from planner.pattern import Pattern, pattern_of
from planner.plan.parts.planned_parts import factors_of
from planner.plan.prepare import Progress, no_progress, read_meshes
from planner.size import sizing


@dataclass(frozen=True, slots=True, kw_only=True)
class PaddingPatterns:
    """The patterns of a job at one size, with what was found about its size and meshes."""

    job: Job
    percent: float
    patterns: tuple[Pattern, ...]
    size_findings: tuple[Finding, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All that was judged."""
        return (*self.size_findings, *(finding for one in self.patterns for finding in one.findings))


def padding_patterns(job: Job, today: date, progress: Progress = no_progress) -> PaddingPatterns:
    """Return the pattern of every piece of padding.

    Raises
    ------
    JobError
        The job names no padding.
    """
    if not job.paddings:
        raise JobError(
            where=job.path.name,
            wrong="the job names no padding, so there is no pattern to make",
            todo="add a [[padding]] table with part, thickness_mm and area_mm2",
        )
    read = read_meshes(job, progress)
    sized = sizing(read.job, read.solids, today)
    found = []
    for n, padding in enumerate(job.paddings):
        progress(f"laying {padding.part} flat", n / len(job.paddings))
        part = job.part(padding.part)
        factors = factors_of(part, sized.percent)
        solid, toward = read.solids[part.name].scaled(factors), _at_size(part.skin_toward, factors)
        if part.handed and job.size.mirrored:
            solid = solid.mirrored()
            toward = None if toward is None else (-toward[0], toward[1], toward[2])
        found.append(pattern_of(job, padding, solid, toward, math.prod(factors) ** (2.0 / 3.0)))
    return PaddingPatterns(
        job=job, percent=sized.percent, patterns=tuple(found), size_findings=(*sized.findings, *read.unread)
    )


def _at_size(toward: Vec3 | None, factors: Vec3) -> Vec3 | None:
    """Return the direction that a face looks to after scaling: normals are divided by the factors."""
    if toward is None:
        return None
    x, y, z = (way / factor for way, factor in zip(toward, factors, strict=True))
    return x, y, z
