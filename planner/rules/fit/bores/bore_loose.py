"""``bore.loose``: whether hardware rattles in its printed bore, and what mends that."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Finding, Verdict, Work
from planner.rules.fit.bores.bore_case import BoreCase
from planner.rules.rule import at_least, at_most, positive


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreLoose:
    """``bore.loose``: the printed bore does not rattle, or the next stock size or a bush fits."""

    case: BoreCase
    rule: str = "bore.loose"

    @property
    def part(self) -> str:
        """Name of the part."""
        return self.case.part

    @property
    def feature(self) -> str:
        """The bore."""
        return self.case.feature

    def way_out(self, s: float, undersize_mm: float | None = None) -> Work | None:
        """Return the work that makes a loose bore good, or None where there is none."""
        case, printed = self.case, self.case.printed_mm(s, undersize_mm)
        for stock in case.larger:
            drilled = not at_least(printed, stock.need_mm)
            if case.drillable(s, stock.need_mm) if drilled else at_most(printed, stock.most_mm):
                return Work(
                    kind="stock",
                    hardware=case.hardware,
                    to_mm=stock.need_mm if drilled else None,
                    takes=stock.label,
                    takes_mm=stock.diameter_mm,
                )
        drilled = not at_least(printed, case.bush_mm)
        if drilled and not case.drillable(s, case.bush_mm):
            return None
        return Work(
            kind="bush",
            hardware=case.hardware,
            to_mm=case.bush_mm if drilled else None,
            outside_mm=case.bush_mm if drilled else printed,
            bored_mm=case.need_mm,
        )

    def verdict(self, s: float, undersize_mm: float | None = None) -> Verdict:
        """Return the verdict at a scale and an undersize."""
        if at_most(self.case.printed_mm(s, undersize_mm), self.case.most_mm):
            return Verdict.GO
        return Verdict.NO_GO if self.way_out(s, undersize_mm) is None else Verdict.GO_WITH_WORK

    def at(self, s: float) -> Finding:
        """Judge the bore at a scale."""
        case, verdict = self.case, self.verdict(s)
        printed = case.printed_mm(s)
        work = self.way_out(s) if verdict is Verdict.GO_WITH_WORK else None
        remedy = "" if work is None else told(work)
        if verdict is Verdict.NO_GO:
            remedy = (
                f"print at {100 * case.scale_for(case.most_mm):.1f} % or less, "
                "or put the bore back to hardware size in the mesh"
            )
        decides = {self.verdict(s, u) for u in (case.undersize_mm.low, case.undersize_mm.high)} != {verdict}
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=case.feature_text,
            verdict=verdict,
            measured=printed,
            limit=case.most_mm,
            unit="mm",
            at_mm=case.bore.centre_mm,
            why=f"{case.hardware}: the bore prints at {printed:.2f} mm, "
            f"a {case.fit} fit allows {case.most_mm:.2f} mm or less",
            remedy=remedy,
            source=f"{case.clearance_source}; undersize: {case.undersize_mm.source}",
            caution=case.caution() if decides else "",
            question=case.question() if decides and not case.calibrated else "",
            work=work,
        )

    def turns(self) -> tuple[float, ...]:
        """Return where it starts to rattle, and where each way out begins and ends."""
        case = self.case
        turns = [case.scale_for(case.most_mm), case.scale_for(case.bush_mm), case.scale_leaving(case.bush_mm)]
        for stock in case.larger:
            turns += [case.scale_for(stock.need_mm), case.scale_for(stock.most_mm), case.scale_leaving(stock.need_mm)]
        return positive(*turns)


def told(work: Work) -> str:
    """Return the work on a loose bore as an order."""
    if work.kind == "stock":
        drill = "" if work.to_mm is None else f"drill to {work.to_mm:.2f} mm and "
        return f"{drill}take {work.takes} instead"
    if work.to_mm is not None:
        return f"drill to {work.to_mm:.2f} mm and glue in a bush bored {work.bored_mm:.2f} mm"
    return f"glue in a bush, {work.outside_mm:.2f} mm outside, bored {work.bored_mm:.2f} mm"
