"""``work.done``: the work that the job states for a bore: what it does, whether it can be done, and what it spoils."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Finding, Verdict
from planner.rules.fit.bores.bore_case import BoreCase
from planner.rules.fit.bores.bore_loose import BoreLoose
from planner.rules.fit.bores.bore_tight import BoreTight
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.rules.rule import at_least, positive
from planner.survey import Bore


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkDone:
    """``work.done``: a bush keeps its wall, a drill stays above the floor of a blind bore, and no work is idle.

    Parameters
    ----------
    cases
        The hardware in the bore: work that makes it fit is listed with it, and is a plain go here.
    told_elsewhere
        Whether another rule lists the work, as that of a cord's channel does.
    """

    part: str
    feature: str
    bore: Bore
    undersize_mm: float
    work: WorkedBore
    cases: tuple[BoreCase, ...]
    told_elsewhere: bool
    source: str
    rule: str = "work.done"

    def at(self, s: float) -> Finding:
        """Judge the work at a scale."""
        printed = self.bore.diameter_mm * s - self.undersize_mm
        verdict, why, remedy, caution = self._judged(s, printed)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=f"{self.bore.id} ({self.bore.drawn_diameter_mm:.2f} mm)",
            verdict=verdict,
            measured=printed,
            limit=self.work.works[-1].to_mm,
            unit="mm",
            at_mm=self.bore.centre_mm,
            why=why,
            remedy=remedy,
            source=self.source,
            caution=caution,
            work=self.work.as_listed(printed, "") if verdict is Verdict.GO_WITH_WORK else None,
        )

    def _judged(self, s: float, printed_mm: float) -> tuple[Verdict, str, str, str]:
        """Return verdict, reason, remedy and caution."""
        said = f"the job says of {self.bore.id}: {self.work.told}"
        wall = self.work.least_wall_mm(printed_mm)
        deepest = max((work.depth_mm or 0.0 for work in self.work.works), default=0.0)
        if wall is not None and not at_least(wall, self.work.bush_wall_mm):
            least = f"{self.work.bush_wall_mm:g} mm is needed"
            why = f"{said}; it would leave {wall:.2f} mm of wall round what is glued in; {least}"
            return Verdict.NO_GO, why, "drill the bore wider first, or bore what is glued in narrower", ""
        if not self.bore.through and deepest > self.bore.depth_mm * s + 0.05:
            floor = f"the bore is {self.bore.depth_mm * s:.2f} mm deep, and what is left under it was not measured"
            return Verdict.HOLD, f"{said}; {floor}", f"stop at {self.bore.depth_mm * s:.1f} mm", ""
        if not self.work.does(printed_mm):
            told = f"{said}; it prints at {printed_mm:.2f} mm"
            return Verdict.GO, told, "", "The stated work changes nothing at this size."
        listed = self.told_elsewhere or any(self._lists(case, s) for case in self.cases)
        told = f"{said}; it prints at {printed_mm:.2f} mm"
        return (Verdict.GO, told, "", "") if listed else (Verdict.GO_WITH_WORK, told, self.work.told, "")

    def _lists(self, case: BoreCase, s: float) -> bool:
        """Return whether the work is listed with a piece of hardware already."""
        work = Verdict.GO_WITH_WORK
        return BoreTight(case=case).verdict(s) is work or BoreLoose(case=case).verdict(s) is work

    def turns(self) -> tuple[float, ...]:
        """Return where the work begins to do something, where a bush just keeps its wall, and where the floor ends."""
        turns = [(size + self.undersize_mm) / self.bore.diameter_mm for size in self.work.printed_turns_mm()]
        turns += [(work.depth_mm - 0.05) / self.bore.depth_mm for work in self.work.works if work.depth_mm]
        for case in self.cases:
            turns += [*BoreTight(case=case).turns(), *BoreLoose(case=case).turns()]
        return positive(*turns)
