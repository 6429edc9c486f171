"""``printer.calibrated``: whether the printer's measured offsets are for this material and nozzle, and not too old."""

from __future__ import annotations

from datetime import date

from planner.finding import Finding, Verdict
from planner.job import Job

STALE_DAYS = 180
"""A hot end and a spool change over half a year; common practice, no source."""


def calibration_findings(job: Job, today: date) -> list[Finding]:
    """Say where measured offsets may not hold; nothing where the profile was never calibrated."""
    made = job.printer.calibrated_for
    if made is None:
        return []
    day = job.calendar.start.date() if job.calendar and job.calendar.start else today
    age = (day - made.taken).days
    cautions = []
    if job.material is not None and job.material.name != made.material:
        cautions.append(f"it was measured in {made.material}, the job prints {job.material.name}")
    if abs(job.printer.nozzle_mm.value - made.nozzle_mm) > 1e-6:
        cautions.append(f"it was measured with a {made.nozzle_mm:g} mm nozzle")
    if age > STALE_DAYS:
        cautions.append(f"it is {age} days old, {STALE_DAYS} are usual")
    return [
        Finding(
            rule="printer.calibrated",
            part="",
            feature="printer",
            verdict=Verdict.GO,
            measured=float(age),
            limit=float(STALE_DAYS),
            unit="days",
            why=f"{job.printer.name} was measured in {made.material} on {made.taken}",
            source="printer profile; limit: common practice, no source",
            caution="" if not cautions else "Print a coupon again: " + "; ".join(cautions) + ".",
        )
    ]
