"""``bore.tight``: whether a printed bore takes its hardware, as printed or drilled."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Finding, Verdict, Work
from planner.rules.fit.bores.bore_case import BoreCase
from planner.rules.rule import at_least, positive


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreTight:
    """``bore.tight``: the printed bore takes the hardware with its running clearance, or can be drilled to it."""

    case: BoreCase
    rule: str = "bore.tight"

    @property
    def part(self) -> str:
        """Name of the part."""
        return self.case.part

    @property
    def feature(self) -> str:
        """The bore."""
        return self.case.feature

    def verdict(self, s: float, undersize_mm: float | None = None) -> Verdict:
        """Return the verdict at a scale and an undersize."""
        if at_least(self.case.printed_mm(s, undersize_mm), self.case.need_mm):
            return Verdict.GO
        return Verdict.GO_WITH_WORK if self.case.drillable(s, self.case.need_mm) else Verdict.NO_GO

    def at(self, s: float) -> Finding:
        """Judge the bore at a scale."""
        case, verdict = self.case, self.verdict(s)
        printed, remedy = case.printed_mm(s), ""
        if verdict is Verdict.GO_WITH_WORK:
            left = case.left_mm(s, case.need_mm)
            rest = "" if left == float("inf") else f"; a wall of {left:.2f} mm is left"
            remedy = f"drill {max(printed, 0.0):.2f} to {case.need_mm:.2f} mm{rest}"
        elif verdict is Verdict.NO_GO:
            remedy = (
                f"print at {100 * case.scale_for(case.need_mm):.1f} % or more, take thinner hardware, "
                "or put the bore back to hardware size in the mesh"
            )
        decides = {self.verdict(s, u) for u in (case.undersize_mm.low, case.undersize_mm.high)} != {verdict}
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=case.feature_text,
            verdict=verdict,
            measured=printed,
            limit=case.need_mm,
            unit="mm",
            at_mm=case.bore.centre_mm,
            why=f"{case.hardware}: the bore prints at {printed:.2f} mm "
            f"({case.bore.diameter_mm * s:.2f} mm less {case.undersize_mm.value:g} mm undersize), "
            f"a {case.fit} fit needs {case.need_mm:.2f} mm or more",
            remedy=remedy,
            source=f"{case.clearance_source}; undersize: {case.undersize_mm.source}",
            caution=case.caution() if decides else "",
            question=case.question() if decides and not case.calibrated else "",
            work=Work(kind="drill", hardware=case.hardware, to_mm=case.need_mm)
            if verdict is Verdict.GO_WITH_WORK
            else None,
        )

    def turns(self) -> tuple[float, ...]:
        """Return where it fits as printed, and where drilling leaves enough."""
        return positive(self.case.scale_for(self.case.need_mm), self.case.scale_leaving(self.case.need_mm))
