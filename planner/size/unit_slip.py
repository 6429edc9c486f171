"""``size.slip``: a measure that only makes sense in another unit."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.job import Measure, Use

FAR = 1.6
"""Only beyond this times the 95th percentile, or under the 5th by as much, a reading is looked at."""
SLIPS = ((10.0, "cm"), (25.4, "inches"), (0.1, "tenths of a mm"), (1 / 25.4, "a number multiplied by 25.4"))


def slips(measure: Measure, use: Use) -> list[Finding]:
    """Return a hold where a measure of the body is plausible only in another unit; else nothing, whatever its size."""
    body = measure.body
    if body is None:
        return []
    low, high = body.usual_mm(use.recipient_age_years)
    value = measure.recipient_mm
    if low / FAR <= value <= high * FAR:
        return []
    meant = [(factor, unit) for factor, unit in SLIPS if low / FAR <= value * factor <= high * FAR]
    if not meant:
        return []
    units = " or ".join(f"{unit} ({value * factor:.0f} mm)" for factor, unit in meant)
    return [
        Finding(
            rule="size.slip",
            part="",
            feature=measure.name,
            verdict=Verdict.HOLD,
            measured=value,
            limit=high if value > high else low,
            unit="mm",
            why=f"{measure.name} is {value:g} mm; {body.about} is {low:g} to {high:g} mm "
            "for nine people of ten at that age",
            remedy=f"it reads like {units}: measure again, in mm",
            source=body.source,
            question=f"Was {measure.name} measured in mm?",
        )
    ]
