"""``size.disagree``: whether a size is the one that the measures of a person ask for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.digits import percent_or_less, percent_or_more, told_apart
from planner.finding import Finding, Verdict
from planner.job import Job
from planner.phrases import listed
from planner.scale import Scale
from planner.sourced import Sourced

SLIP_TIMES = 1.5
"""Measures that ask for sizes further apart than this are no body proportion: one of them was misread; common
practice, no source (cm or inch for mm are factors of 10 and 25.4, a scale applied twice is mostly over 1.5)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureScale:
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
class SizeDisagree:
    """``size.disagree``: a size against what each measure asks for, the same for a job, an option and a slider.

    ``asked`` are the measures that count: all, or the one that ``governs`` by the job's own word; ``beside`` are the
    others then.
    """

    asked: tuple[MeasureScale, ...]
    beside: tuple[MeasureScale, ...]
    limit: Sourced
    rule: str = "size.disagree"
    part: str = ""
    feature: str = "size"

    @property
    def _ends(self) -> tuple[float, float]:
        """The least and the largest percent that a measure asks for."""
        percents = [measure.percent for measure in self.asked]
        return min(percents), max(percents)

    def at(self, s: float) -> Finding:
        """Compare a size with the measures, and the measures with each other."""
        percent, (low, high) = Scale.of_factor(s).percent, self._ends
        # written with comparisons only, so that the page can follow it
        least = min(low, percent)
        most = max(high, percent)
        apart, limit = 100.0 * (most / least - 1.0), self.limit.value
        agrees = apart <= limit + 1e-9
        has, allowed = told_apart(apart, limit, 1)
        told = listed(f"{measure.name} asks for {measure.percent:.1f} %" for measure in self.asked)
        between = 100.0 * (high / low - 1.0) > limit
        remedy, question = self._ways(between=between)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO if agrees else Verdict.HOLD,
            measured=apart,
            limit=limit,
            unit="%",
            why=f"{told}; this size is {percent:.4g} %: {has} % apart; up to {allowed} % counts as agreement",
            remedy="" if agrees else remedy,
            source=self.limit.source,
            caution=self._caution() if agrees else "",
            question="" if agrees else question,
        )

    def _ways(self, *, between: bool) -> tuple[str, str]:
        """Return remedy and question, for measures that disagree with each other (``between``) or with the size."""
        low, high = self._ends
        names = [measure.name for measure in self.asked]
        if between and high / low >= SLIP_TIMES:
            return (
                "measure again: usual slips are cm or inches read as mm, and a scale applied twice",
                f"Which of the measures is right: {listed(names, 'or')}?",
            )
        if between:
            return (
                "bodies differ in proportion: say which measure governs ([size] governs), and pad the other",
                f"Which measure governs the size: {listed(names, 'or')}?",
            )
        share = 1.0 + self.limit.value / 100.0
        ends = f"{percent_or_more(high / share)} to {percent_or_less(low * share)} %"
        return (
            f"measure again, or choose another size: the measures alone allow {ends}",
            f"Does {listed(names)} still hold, or is another size meant?",
        )

    def _caution(self) -> str:
        """Say how far the measures that do not govern are off."""
        low, high = self._ends
        off = [
            f"{measure.name} asks for {measure.percent:.1f} %"
            for measure in self.beside
            if max(high, measure.percent) / min(low, measure.percent) > 1.0 + self.limit.value / 100.0
        ]
        return f"The job lets another measure govern: {'; '.join(off)}. Try it on there first." if off else ""

    def turns(self) -> tuple[float, ...]:
        """Return the sizes at which one measure is just too far off."""
        low, high = self._ends
        share = 1.0 + self.limit.value / 100.0
        return (Scale(high / share).factor, Scale(low * share).factor)


def disagree(job: Job, asked: Sequence[MeasureScale]) -> list[SizeDisagree]:
    """Return the rule about a person's measures; none where nothing was measured."""
    if not asked:
        return []
    named = [measure for measure in asked if measure.name == job.size.governs]
    return [
        SizeDisagree(
            asked=tuple(named or asked),
            beside=tuple(measure for measure in asked if named and measure not in named),
            limit=job.limits.measures_apart_percent,
        )
    ]
