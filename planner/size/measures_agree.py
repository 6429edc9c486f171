"""``size.disagree``: whether the measures of a person ask for one scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.finding import Finding, Verdict
from planner.job import Job


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureScale:
    """One measure, the percent it asks for, and what is left for growth at the size chosen.

    ``spare_mm`` is how much more the recipient may measure until padding fills the device and no ease is left;
    negative where it is too small already.
    """

    name: str
    percent: float
    device_mm: float
    spare_mm: float
    governs: bool


def disagree(job: Job, percent: float, asked: Sequence[MeasureScale], *, stated: bool) -> list[Finding]:
    """Compare what the measures ask for with each other, and with the percent where the job states it."""
    if not asked:
        return []
    scales = [measure.percent for measure in asked] + ([percent] if stated else [])
    apart = 100.0 * (max(scales) / min(scales) - 1.0)
    limit = job.limits.measures_apart_percent
    told = ", ".join(f"{measure.name} asks for {measure.percent:.1f} %" for measure in asked)
    agrees = apart <= limit.value
    return [
        Finding(
            rule="size.disagree",
            part="",
            feature="size",
            verdict=Verdict.GO if agrees else Verdict.HOLD,
            measured=apart,
            limit=limit.value,
            unit="%",
            why=told + (f"; the job states {percent:g} %" if stated else ""),
            remedy="" if agrees else "measure again: cm or inch for mm, or a scale applied twice, are usual",
            source=limit.source,
            question="" if agrees else "Which of the measures is right?",
        )
    ]
