"""``bore.tight``: whether a printed bore takes its hardware, as printed or drilled."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planner.digits import equal_words, percent_or_more, told_apart
from planner.finding import Finding, Verdict, Work
from planner.rules.fit.bores.bore_case import AboutBore
from planner.rules.rule import at_least, just_reaches, positive


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreTight(AboutBore):
    """``bore.tight``: the printed bore takes the hardware with its running clearance, or can be drilled to it."""

    rule: str = "bore.tight"

    def verdict(self, s: float, undersize_mm: float | None = None) -> Verdict:
        """Return the verdict at a scale and an undersize."""
        printed = self.case.printed_mm(s, undersize_mm)
        if at_least(printed, self.case.need_mm) and at_least(self.case.work.finished_mm(printed), self.case.need_mm):
            return Verdict.GO
        if at_least(self.case.work.finished_mm(printed), self.case.need_mm):
            return Verdict.GO_WITH_WORK
        within = self.case.drillable(s, self.case.drill_mm, undersize_mm)
        return Verdict.GO_WITH_WORK if within else Verdict.NO_GO

    def at(self, s: float) -> Finding:
        """Judge the bore at a scale."""
        case, verdict = self.case, self.verdict(s)
        printed, remedy = case.printed_mm(s), ""
        narrowed = case.finished_mm(s) < printed
        had = case.finished_mm(s) if narrowed else printed
        if verdict is Verdict.GO_WITH_WORK:
            remedy = self._work(s) if at_least(case.finished_mm(s), case.need_mm) else case.drilling(s, case.drill_mm)
        elif verdict is Verdict.NO_GO:
            remedy = self._way_out(s)
        decides = {self.verdict(s, u) for u in (case.undersize_mm.low, case.undersize_mm.high)} != {verdict}
        has, needs = told_apart(had, case.need_mm)
        equal = "" if verdict is Verdict.GO else equal_words(had, case.need_mm)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=case.feature_text,
            verdict=verdict,
            measured=had,
            limit=case.need_mm,
            unit="mm",
            at_mm=case.bore.centre_mm,
            why=f"{case.hardware}: the bore "
            + (
                f"has {has} mm after its work; "
                if narrowed
                else f"prints at {has} mm "
                f"({case.bore.diameter_mm * s:.2f} mm less {case.undersize_mm.value:g} mm undersize); "
            )
            + f"{case.fit_words} needs {needs} mm or more"
            + equal
            + (self._no_drill(s) if verdict is Verdict.NO_GO else ""),
            remedy=remedy,
            source=f"{case.clearance_source}; undersize: {case.undersize_mm.source}",
            caution=case.caution() if decides else "",
            question=case.question() if decides and not case.calibrated else "",
            work=self._listed(s) if verdict is Verdict.GO_WITH_WORK else None,
        )

    def _listed(self, s: float) -> Work:
        """Return the work as the lists read it: as the job states it, or the drill that is needed."""
        case = self.case
        if at_least(case.finished_mm(s), case.need_mm):
            return case.work.as_listed(case.printed_mm(s), case.hardware)
        kind: Literal["drill", "ream"] = "drill" if case.drill_mm <= case.drill_most_mm else "ream"
        return Work(kind=kind, hardware=case.hardware, to_mm=case.drill_mm)

    def _work(self, s: float) -> str:
        """Return the work that the job states, with the wall that it leaves."""
        case = self.case
        left = case.left_mm(s, case.work.cut_mm(case.printed_mm(s)))
        return f"{case.work.told}, as the job says" + (
            "" if left == float("inf") else f"; a wall of {left:.2f} mm is left"
        )

    def _no_drill(self, s: float) -> str:
        """Add why no drill helps; nothing where the wall is too thin before any, of which ``bore.edge`` tells."""
        case = self.case
        thin = case.in_reach(case.printed_mm(s), case.drill_mm) and not at_least(
            case.left_mm(s, case.printed_mm(s)), case.edge_limit_mm
        )
        return "" if thin else f"; {case.too_little_left(s, case.drill_mm)}"

    def _way_out(self, s: float) -> str:
        """Return what remains where the bore cannot be drilled: the stock looked through, then the mesh."""
        case, printed, other = self.case, self.case.printed_mm(s), ""
        for stock in case.smaller:
            if case.goes_in(s, printed, stock):
                other = f"take a smaller one ({stock.label} goes in as it prints), or "
                break
            if case.goes_in_drilled(s, printed, stock):
                other = f"take a smaller one ({stock.label} goes in, drilled to {stock.drill_mm:.2f} mm), or "
                break
        enough = min(case.scale_for(case.need_mm), case.scale_to_widen(case.drill_mm))
        return (
            f"{other}put the bore back to hardware size in the mesh; "
            f"at a scale of {percent_or_more(100.0 * enough)} % or more, this bore by itself is wide enough"
        )

    def turns(self) -> tuple[float, ...]:
        """Return where it fits as printed, and where drilling leaves enough."""
        case = self.case
        return positive(
            case.scale_for(just_reaches(case.need_mm)),
            case.scale_leaving(case.drill_mm),
            *case.reach_turns(case.drill_mm),
            *case.work_turns(),
        )
