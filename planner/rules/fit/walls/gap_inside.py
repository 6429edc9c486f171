"""``gap.inside``: bodies of one mesh that are drawn apart stay apart when they print, as a hinge in place."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import equal_words, percent_or_more, told_apart
from planner.finding import Evidence, Finding, Verdict
from planner.rules.fit.fitted_openings import gap_caution
from planner.rules.fit.part_case import PartCase
from planner.rules.rule import Rule, at_least, just_reaches, positive
from planner.sourced import Sourced
from planner.survey import InnerGap


@dataclass(frozen=True, slots=True, kw_only=True)
class GapInside:
    """The narrowest gap between the bodies of one mesh, against what the printer keeps open.

    Whether they are to move on each other is nowhere stated, so that too little is a hold.
    """

    part: str
    gap: InnerGap
    least_mm: Sourced
    rule: str = "gap.inside"
    feature: str = "its bodies"

    def at(self, s: float) -> Finding:
        """Judge the gap at a scale."""
        measured, limit = self.gap.gap_mm * s, self.least_mm.value
        fits = at_least(measured, limit)
        decides = {at_least(measured, mm) for mm in (self.least_mm.low, self.least_mm.high)} != {fits}
        has, keeps = told_apart(measured, limit)
        told = f"the mesh is in {self.gap.bodies_n} bodies, which print {has} mm apart where they are nearest"
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO if fits else Verdict.HOLD,
            measured=measured,
            limit=limit,
            unit="mm",
            at_mm=self.gap.at_mm,
            why=f"{told}; this printer keeps {keeps} mm open"
            + ("" if fits else f"{equal_words(measured, limit)}: they may fuse"),
            remedy="" if fits else self._remedy(),
            source=self.least_mm.source,
            caution=gap_caution(self.least_mm) if decides else "",
            question="" if fits else f"Do the bodies of {self.part} move on each other, printed in place?",
            evidence=Evidence.GUESSED,
        )

    def _remedy(self) -> str:
        """Say what to do in either case."""
        enough = percent_or_more(100.0 * self.least_mm.value / self.gap.gap_mm)
        return (
            f"if they move on each other, print {self.part} at {enough} % or more, or draw its bodies further apart; "
            "if they are one piece, draw them joined"
        )

    def turns(self) -> tuple[float, ...]:
        """Return the scale at which the gap just stays open."""
        return positive(just_reaches(self.least_mm.value) / self.gap.gap_mm)


def gap_inside_rules(case: PartCase) -> list[Rule]:
    """Bind the rule where a part's mesh is in several bodies that lie near each other."""
    gap = case.survey.inner_gap
    return [] if gap is None else [GapInside(part=case.part.name, gap=gap, least_mm=case.job.printer.least_gap_mm)]
