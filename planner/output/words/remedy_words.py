"""Remedies in words: what each takes, and why nearer ways fail."""

from __future__ import annotations

from planner.job import Job
from planner.output.words.few_lines import wrapped
from planner.remedy import Remedies, Remedy


def price_words(remedy: Remedy, job: Job) -> str:
    """Say what a remedy costs, and what the check says with it alone."""
    currency = job.calendar.currency if job.calendar else "EUR"
    said = [f"{remedy.costs.minutes_min:.0f} min"] if remedy.costs.minutes_min else []
    if remedy.costs.money is None:
        said.append("price not known")
    elif remedy.costs.money:
        said.append(f"{remedy.costs.money:.2f} {currency}")
    return ", ".join([*said, f"then {remedy.leaves_verdict.value}"])


def remedy_lines(remedies: Remedies, job: Job) -> list[str]:
    """Return every remedy with its number and price, and two of the nearer ways that failed; nothing without any."""
    lines: list[str] = []
    for remedy in remedies.found:
        lines += wrapped(f"{remedy.text} ({price_words(remedy, job)})", first=f"{remedy.n:>3}  ", rest=" " * 5)
        for refused in remedy.refused[:2]:
            lines += wrapped(f"not: {refused.text}: {refused.why}", first=" " * 7, rest=" " * 9)
    if not lines:
        return []
    foot = wrapped("fitwright check JOB --do N writes one of them into the job.")
    return ["", "What helps: each was tried, and spoils nothing else", *lines, *foot]
