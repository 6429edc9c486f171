"""When a device is outgrown: each measure's room to grow against published growth. A span, never a judgement."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from planner.job import Job, Measure
from planner.size.growth import months_to_grow
from planner.size.measures_agree import MeasureScale

DAYS_A_MONTH = 365.25 / 12.0
Known = Literal["months", "grown", "age", "table", "small"]
"""What is known: a span, that growing has ended, or that the age, a table, or any room is missing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outgrown:
    """How long one measure leaves room.

    Parameters
    ----------
    measure
        Its name.
    known
        Whether there is a span of months, and if not, why.
    room_mm
        How much more the person may measure.
    next_percent
        The size that gives the room again which the job asks for, once this one is used up.
    earliest_months, latest_months
        The span, from the day the measure was taken; None where the tables end before.
    measured
        That day, as year-month-day; empty where it is not stated.
    source
        The tables of growth.
    """

    measure: str
    known: Known
    room_mm: float
    next_percent: float
    earliest_months: float | None = None
    latest_months: float | None = None
    measured: str = ""
    source: str = ""

    def day_after(self, months: float | None) -> date | None:
        """Return the day some months after the measure was taken; None where either is not known."""
        if months is None or not self.measured:
            return None
        return date.fromisoformat(self.measured) + timedelta(days=round(months * DAYS_A_MONTH))


def outgrown(job: Job, scales: Sequence[MeasureScale]) -> tuple[Outgrown, ...]:
    """Return one answer for each measure, that which is outgrown first at the top."""
    measures = {measure.name: measure for measure in job.size.measures}
    found = [_of_one(job, measures[scale.name], scale) for scale in scales]
    return tuple(sorted(found, key=_soonest))


def _of_one(job: Job, measure: Measure, scale: MeasureScale) -> Outgrown:
    """Return the answer for one measure."""
    age, body = job.use.recipient_age_years, measure.body
    known: Known = "months"
    if scale.spare_mm <= 0:
        known = "small"
    elif age is not None and age >= job.limits.child_age_years.value:
        known = "grown"
    elif body is None or body.name.endswith("-around") != (measure.kind == "around"):
        known = "table"
    elif age is None:
        known = "age"
    earliest, latest = None, None
    if known == "months" and body is not None and age is not None:
        earliest, latest = months_to_grow(body, age, scale.spare_mm)
    inside_mm = max(scale.spare_mm, 0.0) + scale.device_mm * scale.percent / 100.0
    again_mm = max(measure.ease_mm, scale.spare_mm) - measure.ease_mm if scale.spare_mm > 0 else 0.0
    return Outgrown(
        measure=measure.name,
        known=known,
        room_mm=scale.spare_mm,
        next_percent=100.0 * (inside_mm + again_mm) / scale.device_mm,
        earliest_months=earliest,
        latest_months=latest,
        measured="" if measure.taken is None else measure.taken.isoformat(),
        source=body.source if body is not None and known == "months" else "",
    )


def _soonest(one: Outgrown) -> tuple[int, float]:
    """Return where an answer stands: what has no room already, spans by their early end, then what is not known."""
    order = {"small": 0, "months": 1, "age": 2, "table": 2, "grown": 3}
    return order[one.known], one.earliest_months if one.earliest_months is not None else 1e9
