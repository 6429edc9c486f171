"""``size.stale``: whether a measure of a body still counts on the day that printing starts."""

from __future__ import annotations

from datetime import date

from planner.finding import Evidence, Finding, Verdict
from planner.job import Job, Measure


def measure_age(measure: Measure, job: Job, today: date) -> Finding:
    """Judge the age of a measure; where the recipient's age would decide and nobody states it, that is the question."""
    started = job.calendar.start.date() if job.calendar and job.calendar.start else None
    if measure.taken is None:
        caution = f"The day of {measure.name} is not stated: state `taken`, because a body changes."
        return _finding(measure, Verdict.GO, f"{measure.name} has no date", caution=caution)
    days = ((started or today) - measure.taken).days
    told = f"{measure.name} was taken {days} days {'before the start' if started else 'ago'}"
    if days < 0:
        since = "the start of printing" if started else "today"
        why = f"{measure.name} is dated {measure.taken}, {-days} days after {since}"
        question = f"When was {measure.name} taken?"
        return _finding(measure, Verdict.HOLD, why, remedy="correct the date", question=question, days_n=days)
    limits, age = job.limits, job.use.recipient_age_years
    child, adult, grown = limits.stale_child_days, limits.stale_adult_days, limits.child_age_years
    if age is None and child.value < days <= adult.value:
        return Finding(
            rule="size.stale",
            part="",
            feature=measure.name,
            verdict=Verdict.HOLD,
            measured=float(days),
            limit=child.value,
            unit="days",
            why=f"{told}: recent enough for an adult ({adult.value:g} days), not for a child ({child.value:g} days)",
            remedy=f"if the recipient is under {grown.value:g}, measure again; otherwise nothing is to be done",
            source=child.source,
            question=f"How old is the recipient? A child's {measure.name} would have to be measured again.",
            evidence=Evidence.GUESSED,
            question_id="recipient-age",
        )
    if age is None:  # it counts for both, or for neither
        limit, who = (child, "a child") if days <= child.value else (adult, "an adult")
    else:
        limit, who = (child, "a child") if age < grown.value else (adult, "an adult")
    over = days > limit.value
    return Finding(
        rule="size.stale",
        part="",
        feature=measure.name,
        verdict=Verdict.HOLD if over else Verdict.GO,
        measured=float(days),
        limit=limit.value,
        unit="days",
        why=f"{told}; {limit.value:g} days are the limit for {who}",
        remedy="measure again" if over else "",
        source=limit.source,
        question=f"What is {measure.name} today?" if over else "",
        evidence=Evidence.STATED,
    )


def _finding(
    measure: Measure,
    verdict: Verdict,
    why: str,
    *,
    remedy: str = "",
    caution: str = "",
    question: str = "",
    days_n: int | None = None,
) -> Finding:
    """Return what is said of a measure whose date is missing, or cannot be."""
    return Finding(
        rule="size.stale",
        part="",
        feature=measure.name,
        verdict=verdict,
        measured=None if days_n is None else float(days_n),
        unit="" if days_n is None else "days",
        why=why,
        remedy=remedy,
        source="job file",
        caution=caution,
        question=question,
        evidence=Evidence.STATED,
    )
