"""``printer.calibrated``: whether the printer's measured offsets are for this material and nozzle, and not too old."""

from __future__ import annotations

from datetime import date

from planner.finding import Finding, Verdict
from planner.job import Job


def calibration_findings(job: Job, today: date) -> list[Finding]:
    """Say where measured offsets may not hold; nothing where the profile was never calibrated."""
    made = job.printer.calibrated_for
    if made is None:
        return []
    day = job.calendar.start.date() if job.calendar and job.calendar.start else today
    age, most = (day - made.taken).days, job.limits.of("printer.calibrated", "most_days")
    cautions = []
    if job.material is not None and job.material.name != made.material:
        cautions.append(f"it was measured in {made.material}, but the job prints {job.material.name}")
    if abs(job.printer.nozzle_mm.value - made.nozzle_mm) > 1e-6:
        cautions.append(f"it was measured with a {made.nozzle_mm:g} mm nozzle")
    if age < 0:
        cautions.append(f"it is dated {made.taken}, after {day}")
    if age > most.value:
        cautions.append(f"it is {age} days old; the limit is {most.value:g}")
    return [
        Finding(
            rule="printer.calibrated",
            part="",
            feature="printer",
            verdict=Verdict.GO,
            measured=float(age),
            limit=most.value,
            unit="days",
            why=f"{job.printer.name} was measured in {made.material} on {made.taken}",
            source=f"printer profile; limit: {most.source}",
            caution="" if not cautions else "Print a coupon again: " + "; ".join(cautions) + ".",
        )
    ]
