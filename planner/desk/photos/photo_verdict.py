"""Whether a photo is sharp enough: the job's verdict at the low end of a length, at its value and at its high end."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date

from planner.errors import CommandError
from planner.finding import Verdict
from planner.job import Job
from planner.photo import Length
from planner.plan import Prepared
from planner.rules import check
from planner.size import window


@dataclass(frozen=True, slots=True, kw_only=True)
class AcrossRange:
    """A job's verdict and size at the low end of a length, at the length, and at its high end."""

    measure: str
    half_mm: float
    verdicts: tuple[Verdict, Verdict, Verdict]
    percents: tuple[float, float, float]
    ends_percent: tuple[float, ...]
    """Sizes between the lowest and the highest at which the device stops or starts to work."""

    @property
    def decides(self) -> bool:
        """True where the verdict is not the same over the whole range."""
        return len(set(self.verdicts)) > 1 or bool(self.ends_percent)

    def words(self) -> str:
        """Say it in one sentence."""
        low, value, high = self.verdicts
        if not self.decides:
            return f"Over the whole range of {self.measure} the job's verdict is {value.value}."
        ends = ", ".join(f"{one:.1f} %" for one in self.ends_percent)
        turn = f" it turns at {ends}." if ends and low is high is value else ""
        return (
            f"± {self.half_mm:.1f} mm, take it again: over this range of {self.measure} the verdict changes. At the "
            f"low end {low.value} ({self.percents[0]:.1f} %), at the middle {value.value} "
            f"({self.percents[1]:.1f} %), at the high end {high.value} ({self.percents[2]:.1f} %).{turn}"
        )

    def told(self) -> dict[str, object]:
        """Return it as the page shows it."""
        return {
            "decides": self.decides,
            "words": self.words(),
            "verdicts": [one.value for one in self.verdicts],
            "percents": list(self.percents),
        }


def across_range(job: Job, row: int, length: Length, today: date, prepared: Callable[[Job], Prepared]) -> AcrossRange:
    """Return what a length's range does to a job's verdict; ``row`` is the measure that it would be put into, from 0.

    Raises
    ------
    CommandError
        The job has no such measure, or one around a limb, which no photo shows.
    """
    if not 0 <= row < len(job.size.measures):
        raise CommandError(where=f"measure {row + 1}", wrong="the job has none", todo="reload the page")
    measure = job.size.measures[row]
    if measure.kind == "around":
        raise CommandError(where=measure.name, wrong="it goes round a limb", todo="take it with a tape")
    verdicts, percents, ready = [], [], None
    for mm in (length.low_mm, length.value_mm, length.high_mm):
        tried = replace(measure, recipient_mm=round(mm, 1), taken=today, how="photo", off_mm=0.0)
        measures = tuple(tried if n == row else one for n, one in enumerate(job.size.measures))
        ready = prepared(replace(job, size=replace(job.size, measures=measures)))
        verdicts.append(check(ready.bound, ready.sizing.percent).verdict)
        percents.append(ready.sizing.percent)
    assert ready is not None
    least, most = min(percents), max(percents)
    reach = window(ready.bound.every, percents[1]).workable.intervals
    ends = {end for one in reach for end in (one.low_percent, one.high_percent) if end is not None}
    return AcrossRange(
        measure=measure.name,
        half_mm=(length.high_mm - length.low_mm) / 2.0,
        verdicts=(verdicts[0], verdicts[1], verdicts[2]),
        percents=(percents[0], percents[1], percents[2]),
        ends_percent=tuple(sorted(end for end in ends if least < end < most)),
    )
