"""``size.untried``: whether anybody is known to have built a size."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Finding, Verdict
from planner.job import Job
from planner.rules import ConstantVerdict
from planner.scale import Scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Untried(ConstantVerdict):
    """``size.untried``: a caution where nobody is known to have built the size; never worse than go."""

    low_percent: float
    high_percent: float
    rule: str = "size.untried"
    part: str = ""
    feature: str = "size"

    def at(self, s: float) -> Finding:
        """Compare a scale with those that were built."""
        percent, low, high = Scale.of_factor(s).percent, self.low_percent, self.high_percent
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
