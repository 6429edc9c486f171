"""What is said of the size itself: whether the measures agree with it, and whether anybody has built it.

Both say something else of a size that is only tried than of the one that a job states, so a page that tries many
sizes asks :func:`tried_rules`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from planner.finding import Finding, Verdict
from planner.job import Job
from planner.rules import Lifted, Rule, Said, Steady


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One measure, the percent it asks for, and what is left for growth at the size chosen.

    ``spare_mm`` is how much more the recipient may measure until padding fills the device and no ease is left;
    negative where it is too small already.
    """

    name: str
    percent: float
    device_mm: float
    spare_mm: float
    governs: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Untried(Steady):
    """``size.untried``: a word of care where nobody is known to have built the size; never worse than go."""

    low_percent: float
    high_percent: float
    rule: str = "size.untried"
    part: str = ""
    feature: str = "size"

    def at(self, s: float) -> Finding:
        """Compare a scale with those that were built."""
        percent, low, high = 100.0 * s, self.low_percent, self.high_percent
        smaller, larger = percent < low - 1e-9, percent > high + 1e-9
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO,
            measured=percent,
            limit=low if smaller else high,
            unit="%",
            why=f"somebody has built {low:g} to {high:g} %",
            source="job file",
            caution=f"Nobody is known to have built it at {percent:g} %: print one joint first."
            if smaller or larger
            else "",
        )


def untried(job: Job) -> list[Untried]:
    """Return the rule about the sizes that somebody has built; none where the job names none."""
    if job.tried_percent is None:
        return []
    low, high = job.tried_percent
    return [Untried(low_percent=low, high_percent=high)]


def disagree(job: Job, percent: float, asked: Sequence[Asked], *, stated: bool) -> list[Finding]:
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


def tried_rules(job: Job, rules: Sequence[Rule], asked: Sequence[Asked]) -> tuple[Rule, ...]:
    """Return bound rules for sizes that are only tried: what they say of the size speaks of the one that is tried."""
    said = [Said(finding=finding, feature=finding.feature) for finding in disagree(job, 0.0, asked, stated=False)]
    others: list[Rule] = [*untried(job), *said]
    about = {rule.rule: rule for rule in others}
    return tuple(_instead(rule, about.get(rule.rule)) for rule in rules)


def _instead(rule: Rule, other: Rule | None) -> Rule:
    """Return another rule in the place of one, lifted where that was lifted."""
    if other is None:
        return rule
    return replace(rule, inner=other) if isinstance(rule, Lifted) else other
