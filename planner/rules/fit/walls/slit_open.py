"""``gap.slit``: two faces of one body that are drawn near each other print apart, as those of a collet or a clamp."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planner.digits import equal_words, percent_or_more, told_apart
from planner.finding import Evidence, Finding, Verdict
from planner.job import Job
from planner.rules.fit.fitted_openings import gap_caution
from planner.rules.rule import Rule, at_least, just_reaches, positive
from planner.sourced import Sourced
from planner.survey import Slit


@dataclass(frozen=True, slots=True, kw_only=True)
class SlitOpen:
    """The narrowest slit in a part, against what the printer keeps open.

    What closes up no longer springs, or takes nothing; whether it has to is nowhere stated, so that too little is a
    hold.
    """

    part: str
    slit: Slit
    least_mm: Sourced
    rule: str = "gap.slit"
    feature: str = "its slit"

    def at(self, s: float) -> Finding:
        """Judge the slit at a scale."""
        measured, limit = self.slit.width_mm * s, self.least_mm.value
        fits = at_least(measured, limit)
        decides = {at_least(measured, mm) for mm in (self.least_mm.low, self.least_mm.high)} != {fits}
        has, keeps = told_apart(measured, limit)
        size = f"{self.slit.long_mm * s:.1f} mm long and {self.slit.deep_mm * s:.1f} mm deep"
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO if fits else Verdict.HOLD,
            measured=measured,
            limit=limit,
            unit="mm",
            at_mm=self.slit.at_mm,
            why=f"its narrowest slit, {size}, prints {has} mm wide; this printer keeps {keeps} mm open"
            + ("" if fits else f"{equal_words(measured, limit)}: it may print closed"),
            remedy="" if fits else self._remedy(),
            source=self.least_mm.source,
            caution=gap_caution(self.least_mm) if decides else "",
            question="" if fits else f"Does the slit of {self.part} have to stay open, as where it springs or clamps?",
            evidence=Evidence.GUESSED,
        )

    def _remedy(self) -> str:
        """Say what to do in either case."""
        enough = percent_or_more(100.0 * self.least_mm.value / self.slit.width_mm)
        return (
            f"if it has to stay open, draw it wider, or print {self.part} at {enough} % or more; "
            "if it may close, lift the hold with [[override]]"
        )

    def turns(self) -> tuple[float, ...]:
        """Return the scale at which the slit just stays open."""
        return positive(just_reaches(self.least_mm.value) / self.slit.width_mm)


def slit_rules(job: Job, slits: Mapping[str, Slit | None]) -> tuple[Rule, ...]:
    """Bind the rule to the slits of the parts that a job prints."""
    found = ((part.name, slits.get(part.name)) for part in job.parts)
    least_mm = job.printer.least_gap_mm
    return tuple(SlitOpen(part=name, slit=slit, least_mm=least_mm) for name, slit in found if slit is not None)
