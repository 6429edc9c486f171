"""``bore.edge``: the wall that a bore leaves beside it."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import equal_words, percent_or_more, told_apart
from planner.finding import Finding, Verdict
from planner.rules.fit.bores.bore_case import BoreCase
from planner.rules.fit.bores.bore_tight import BoreTight
from planner.rules.rule import at_least, positive
from planner.survey import Bore


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreEdge:
    """``bore.edge``: least wall beside the bore, after the drilling that ``bore.tight`` asks for.

    ``case`` is None for a bore that no hardware claims: it is judged as it prints.
    """

    part: str
    feature: str
    bore: Bore
    edge_mm: float
    limit_mm: float
    duty: str
    case: BoreCase | None
    source: str
    rule: str = "bore.edge"

    def at(self, s: float) -> Finding:
        """Judge the wall beside the bore at a scale."""
        drilled = self.case is not None and BoreTight(case=self.case).verdict(s) is Verdict.GO_WITH_WORK
        measured = self.case.left_mm(s, self.case.drill_mm) if drilled and self.case else self.edge_mm * s
        fits = at_least(measured, self.limit_mm)
        has, needs = told_apart(measured, self.limit_mm)
        name = self.case.feature_text if self.case else f"{self.bore.id} ({self.bore.drawn_diameter_mm:.2f} mm)"
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=name,
            verdict=Verdict.GO if fits else Verdict.NO_GO,
            measured=measured,
            limit=self.limit_mm,
            unit="mm",
            at_mm=self.bore.edge_at_mm or self.bore.centre_mm,
            why=f"the wall beside {name} is {has} mm"
            + (" after drilling" if drilled else "")
            + f", duty {self.duty} needs {needs} mm"
            + ("" if fits else equal_words(measured, self.limit_mm)),
            remedy="" if fits else f"{self._larger()}thicken the boss in the mesh",
            source=self.source,
        )

    def _larger(self) -> str:
        """Return the size at which the wall as printed suffices; nothing where there is no wall to grow."""
        if self.edge_mm <= 0.0:
            return ""
        return f"print at {percent_or_more(100.0 * self.limit_mm / self.edge_mm)} % or more, or "

    def turns(self) -> tuple[float, ...]:
        """Return where the wall just suffices, drilled or not, and where drilling begins."""
        own = positive(self.limit_mm / self.edge_mm) if self.edge_mm > 0 else ()
        return own + (BoreTight(case=self.case).turns() if self.case else ())
