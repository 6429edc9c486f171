"""A narrow gap within one mesh, against what the printer keeps open: a hold, since nothing says whether it has to."""

from __future__ import annotations

from collections.abc import Callable

from planner.digits import equal_words, percent_or_more, told_apart
from planner.finding import Evidence, Finding, Vec3, Verdict
from planner.rules.fit.fitted_openings import gap_caution
from planner.rules.rule import Rule, at_least, just_reaches, positive
from planner.sourced import Sourced


def kept_open(
    rule: Rule,
    measured_mm: float,
    least_mm: Sourced,
    at_mm: Vec3,
    *,
    told: Callable[[str], str],
    closed: str,
    remedy: str,
    question: str,
) -> Finding:
    """Return what a rule finds of a gap as it prints.

    ``told`` gives what is there from its width in words, ``closed`` says what too little may do; ``remedy`` and
    ``question`` are for that case.
    """
    limit = least_mm.value
    fits = at_least(measured_mm, limit)
    decides = {at_least(measured_mm, mm) for mm in (least_mm.low, least_mm.high)} != {fits}
    has, keeps = told_apart(measured_mm, limit)
    return Finding(
        rule=rule.rule,
        part=rule.part,
        feature=rule.feature,
        verdict=Verdict.GO if fits else Verdict.HOLD,
        measured=measured_mm,
        limit=limit,
        unit="mm",
        at_mm=at_mm,
        why=f"{told(has)}; this printer keeps {keeps} mm open"
        + ("" if fits else f"{equal_words(measured_mm, limit)}: {closed}"),
        remedy="" if fits else remedy,
        source=least_mm.source,
        caution=gap_caution(least_mm) if decides else "",
        question="" if fits else question,
        evidence=Evidence.GUESSED,
    )


def open_from(drawn_mm: float, least_mm: Sourced) -> tuple[float, ...]:
    """Return the scale at which a gap just stays open."""
    return positive(just_reaches(least_mm.value) / drawn_mm)


def enough_percent(drawn_mm: float, least_mm: Sourced) -> str:
    """Return the scale from which on a gap stays open, in percent."""
    return percent_or_more(100.0 * least_mm.value / drawn_mm)
