"""``bore.edge``: the wall that a bore leaves beside it."""

from __future__ import annotations

from dataclasses import dataclass, field

from planner.digits import equal_words, percent_or_more, told_apart
from planner.finding import Finding, Verdict
from planner.rules.fit.bores.bore_case import BoreCase
from planner.rules.fit.bores.bore_tight import BoreTight
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.rules.rule import at_least, just_reaches, positive
from planner.survey import Bore


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreEdge:
    """``bore.edge``: least wall beside the bore, after the drilling that ``bore.tight`` asks for.

    Work that the job states is judged as stated. ``case`` is None for a bore that no hardware claims.
    """

    part: str
    feature: str
    bore: Bore
    edge_mm: float
    limit_mm: float
    duty: str
    case: BoreCase | None
    source: str
    undersize_mm: float = 0.0
    work: WorkedBore = field(default_factory=WorkedBore)
    rule: str = "bore.edge"

    def at(self, s: float) -> Finding:
        """Judge the wall beside the bore at a scale."""
        drill_mm = self._drill_mm(s)
        drilled, measured = drill_mm is not None, self._left_mm(s, drill_mm)
        fits = at_least(measured, self.limit_mm)
        has, needs = told_apart(measured, self.limit_mm)
        bare = f"{self.bore.id} ({self.bore.drawn_diameter_mm:.2f} mm)"
        name = self.case.feature_text if self.case else bare
        beside = f"the wall beside {name if drilled else bare}"  # hardware decides nothing where nothing is drilled
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=name,
            verdict=Verdict.GO if fits else Verdict.NO_GO,
            measured=measured,
            limit=self.limit_mm,
            unit="mm",
            at_mm=self.bore.edge_at_mm or self.bore.centre_mm,
            why=f"{beside} is {has} mm"
            + (" after drilling" if drilled else "")
            + f"; duty {self.duty} needs {needs} mm"
            + ("" if fits else equal_words(measured, self.limit_mm)),
            remedy="" if fits else f"thicken the boss in the mesh{self._larger()}",
            source=self.source,
        )

    def verdict(self, s: float) -> Verdict:
        """Return the verdict at a scale."""
        return Verdict.GO if at_least(self._left_mm(s, self._drill_mm(s)), self.limit_mm) else Verdict.NO_GO

    def _left_mm(self, s: float, drill_mm: float | None) -> float:
        """Return the wall beside the bore, drilled to a diameter or as it prints."""
        return self.edge_mm * s if drill_mm is None else self._beside_mm() * s - drill_mm / 2

    def _printed_mm(self, s: float) -> float:
        """Return the diameter as it prints."""
        return self.case.printed_mm(s) if self.case else self.bore.diameter_mm * s - self.undersize_mm

    def _drill_mm(self, s: float) -> float | None:
        """Return the widest diameter that work cuts, stated or asked for; None where nothing is cut."""
        printed, case = self._printed_mm(s), self.case
        cut = self.work.cut_mm(printed)
        asked = case is not None and BoreTight(case=case).verdict(s) is Verdict.GO_WITH_WORK
        if case is not None and asked and not at_least(self.work.finished_mm(printed), case.need_mm):
            cut = case.drill_mm
        return cut if printed < cut else None

    def _beside_mm(self) -> float:
        """Return the distance from the bore's axis to the end of the matter beside it, as drawn."""
        return self.edge_mm + self.bore.drawn_diameter_mm / 2

    def _larger(self) -> str:
        """Return the size at which the wall as printed suffices; nothing where there is no wall to grow."""
        if self.edge_mm <= 0.0:
            return ""
        enough = percent_or_more(100.0 * self.limit_mm / self.edge_mm)
        return f"; at a scale of {enough} % or more, this wall by itself is thick enough if it is not drilled"

    def turns(self) -> tuple[float, ...]:
        """Return where the wall just suffices, drilled or not, and where drilling begins."""
        own = positive(just_reaches(self.limit_mm) / self.edge_mm) if self.edge_mm > 0 else ()
        worked = [
            turn
            for size in self.work.printed_turns_mm()
            for turn in (
                (size + self.undersize_mm) / self.bore.diameter_mm,
                (just_reaches(self.limit_mm) + size / 2) / self._beside_mm(),
            )
        ]
        return own + positive(*worked) + (BoreTight(case=self.case).turns() if self.case else ())
