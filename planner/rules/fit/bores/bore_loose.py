"""``bore.loose``: whether hardware rattles in its printed bore, and what mends that."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import equal_words, percent_or_less, told_apart
from planner.finding import Finding, Verdict, Work
from planner.rules.fit.bores.bore_case import AboutBore, Stock
from planner.rules.rule import at_least, at_most, just_reaches, just_within, positive


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreLoose(AboutBore):
    """``bore.loose``: the printed bore does not rattle, or a larger stock size or a bush fits."""

    rule: str = "bore.loose"

    def way_out(self, s: float, undersize_mm: float | None = None) -> Work | None:
        """Return the work that makes a loose bore good, or None where there is none.

        The whole stock is looked through: first what goes in as it prints, then what a drill makes room for.
        """
        case, printed = self.case, self.case.finished_mm(s, undersize_mm)
        for stock in case.larger:
            if case.goes_in(s, printed, stock):
                return self._stock(stock, None)
        for stock in case.larger:
            if case.goes_in_drilled(s, printed, stock):
                return self._stock(stock, stock.drill_mm)
        drilled = not at_least(printed, case.bush_mm)
        if case.fit == "pilot" or (drilled and not case.drillable(s, case.bush_mm, undersize_mm)):
            return None  # a bush would have to hold a pilot's thread: an insert does that
        return Work(
            kind="bush",
            hardware=case.hardware,
            to_mm=case.bush_mm if drilled else None,
            outside_mm=case.bush_mm if drilled else printed,
            bored_mm=case.need_mm,
        )

    def _stock(self, stock: Stock, to_mm: float | None) -> Work:
        """Return the work of taking another size, drilled to a diameter where that is needed."""
        name, mm = stock.label, stock.diameter_mm
        return Work(kind="stock", hardware=self.case.hardware, to_mm=to_mm, takes=name, takes_mm=mm)

    def verdict(self, s: float, undersize_mm: float | None = None) -> Verdict:
        """Return the verdict at a scale and an undersize."""
        case = self.case
        if at_most(case.finished_mm(s, undersize_mm), case.most_mm):
            return Verdict.GO if at_most(case.printed_mm(s, undersize_mm), case.most_mm) else Verdict.GO_WITH_WORK
        return Verdict.NO_GO if self.way_out(s, undersize_mm) is None else Verdict.GO_WITH_WORK

    def at(self, s: float) -> Finding:
        """Judge the bore at a scale."""
        case, verdict = self.case, self.verdict(s)
        printed = case.finished_mm(s)
        stated = verdict is Verdict.GO_WITH_WORK and at_most(printed, case.most_mm)
        work = self.way_out(s) if verdict is Verdict.GO_WITH_WORK and not stated else None
        remedy = f"{case.work.told}, as the job says" if stated else "" if work is None else told(work)
        if stated:
            work = case.work.as_listed(case.printed_mm(s), case.hardware)
        if verdict is Verdict.NO_GO:
            other = "set a threaded insert" if case.fit == "pilot" else "glue in a plug and drill it again"
            remedy = (
                f"{other}, or put the bore back to hardware size in the mesh; "
                f"at a scale of {percent_or_less(100.0 * case.scale_for(case.most_mm))} % or less, this bore by itself "
                "is narrow enough"
            )
        decides = {self.verdict(s, u) for u in (case.undersize_mm.low, case.undersize_mm.high)} != {verdict}
        has, allows = told_apart(printed, case.most_mm)
        equal = "" if verdict is Verdict.GO else equal_words(printed, case.most_mm)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=case.feature_text,
            verdict=verdict,
            measured=printed,
            limit=case.most_mm,
            unit="mm",
            at_mm=case.bore.centre_mm,
            why=f"{case.hardware}: the bore {self._comes(s)} {has} mm; {case.play_words} allows {allows} mm or less"
            + equal,
            remedy=remedy,
            source=f"{case.play_source}; undersize: {case.undersize_mm.source}",
            caution=case.caution() if decides else "",
            question=case.question() if decides and not case.calibrated else "",
            work=work,
        )

    def _comes(self, s: float) -> str:
        """Say how the bore got its size: by printing, or by the work that the job states."""
        case = self.case
        return "has after its work" if case.work.does(case.printed_mm(s)) else "prints at"

    def turns(self) -> tuple[float, ...]:
        """Return where it starts to rattle, and where each way out begins and ends."""
        case = self.case
        turns = [case.scale_for(just_within(case.most_mm)), case.scale_for(just_reaches(case.bush_mm))]
        turns += [case.scale_leaving(case.bush_mm), *case.reach_turns(case.bush_mm)]
        for stock in case.larger:
            turns += case.turns_for(stock)
        return positive(*turns, *case.work_turns())


def told(work: Work) -> str:
    """Return the work on a loose bore as an order."""
    if work.kind == "stock":
        drill = "" if work.to_mm is None else f"drill to {work.to_mm:.2f} mm and "
        return f"{drill}take {work.takes} instead"
    if work.to_mm is not None:
        return f"drill to {work.to_mm:.2f} mm and glue in a bush bored {work.bored_mm:.2f} mm"
    return f"glue in a bush, {work.outside_mm:.2f} mm outside, bored {work.bored_mm:.2f} mm"
