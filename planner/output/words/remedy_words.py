"""What a remedy takes, in words."""

from __future__ import annotations

from planner.job import Job
from planner.remedy import Remedy


def price_words(remedy: Remedy, job: Job) -> str:
    """Say what a remedy costs, and what the check says with it alone."""
    currency = job.calendar.currency if job.calendar else "EUR"
    said = [f"{remedy.costs.minutes_min:.0f} min"] if remedy.costs.minutes_min else []
    if remedy.costs.money is None:
        said.append("price not known")
    elif remedy.costs.money:
        said.append(f"{remedy.costs.money:.2f} {currency}")
    return ", ".join([*said, f"then {remedy.leaves_verdict.value}"])
