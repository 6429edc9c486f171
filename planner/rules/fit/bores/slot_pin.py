"""``slot.pin``: whether a printed slot lets the pin or screw run that slides in it, which keeps its size."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import equal_words, percent_or_less, percent_or_more, told_apart
from planner.finding import Finding, Vec3, Verdict
from planner.rules.rule import at_least, at_most, just_reaches, just_within, positive
from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class SlotPin:
    """``slot.pin``: the slot is wider than its pin by what running needs, and by no more than its fit allows.

    ``need_mm`` and ``most_mm`` are the least and the greatest printed width. A slot that is too narrow by no more than
    ``file_mm`` is filed; one that is too wide lets the pin rattle, which is asked about.
    """

    part: str
    feature: str
    hardware: str
    width_mm: float
    at_mm: Vec3
    undersize_mm: Sourced
    calibrated: bool
    need_mm: float
    most_mm: float
    file_mm: Sourced
    source: str
    rule: str = "slot.pin"

    def printed_mm(self, s: float, undersize_mm: float | None = None) -> float:
        """Return the printed width; at the middle undersize unless another is given."""
        return self.width_mm * s - (self.undersize_mm.value if undersize_mm is None else undersize_mm)

    def verdict(self, s: float, undersize_mm: float | None = None) -> Verdict:
        """Return the verdict at a scale and an undersize."""
        printed = self.printed_mm(s, undersize_mm)
        if not at_most(printed, self.most_mm):
            return Verdict.HOLD
        if at_least(printed, self.need_mm):
            return Verdict.GO
        return Verdict.GO_WITH_WORK if at_least(printed, self.need_mm - self.file_mm.value) else Verdict.NO_GO

    def at(self, s: float) -> Finding:
        """Judge the slot at a scale."""
        printed, verdict, u = self.printed_mm(s), self.verdict(s), self.undersize_mm
        limit = self.most_mm if verdict is Verdict.HOLD else self.need_mm
        has, bound = told_apart(printed, limit)
        decides = {self.verdict(s, x) for x in (u.low, u.high)} != {verdict}
        asked = (
            f"How wide does a slot of {self.width_mm:.1f} mm print on this printer? It decides {self.hardware} in "
            f"{self.part}."
            if decides and not self.calibrated
            else ""
        )
        if verdict is Verdict.HOLD:
            asked = f"How much may {self.hardware} rattle in the slot of {self.part}?"
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.hardware,
            verdict=verdict,
            measured=printed,
            limit=limit,
            unit="mm",
            at_mm=self.at_mm,
            why=f"{self.hardware}: the slot prints {has} mm wide ({self.width_mm * s:.2f} mm less {u.value:g} mm "
            f"undersize); to slide it needs {bound} mm or {'less' if verdict is Verdict.HOLD else 'more'}"
            + ("" if verdict is Verdict.GO else equal_words(printed, limit)),
            remedy=self._remedy(verdict),
            source=f"{self.source}; undersize, as of bores: {u.source}",
            caution=f"Between {u.low:g} and {u.high:g} mm undersize the answer changes." if decides else "",
            question=asked,
        )

    def _remedy(self, verdict: Verdict) -> str:
        """Return what helps."""
        if verdict is Verdict.GO_WITH_WORK:
            return f"file both long walls of the slot until it is {self.need_mm:.2f} mm wide all along"
        if verdict is Verdict.NO_GO:
            enough = percent_or_more(100.0 * self._scale_for(self.need_mm))
            return (
                f"widen the slot in the mesh, or take a thinner {self.hardware}; at a scale of {enough} % or more, "
                "this slot by itself is wide enough"
            )
        if verdict is Verdict.HOLD:
            most = percent_or_less(100.0 * self._scale_for(self.most_mm))
            return (
                f"put a sleeve on {self.hardware}, or narrow the slot in the mesh; at a scale of {most} % or less, "
                "this slot by itself is narrow enough"
            )
        return ""

    def _scale_for(self, printed_mm: float) -> float:
        """Return the scale at which it prints at a width."""
        return (printed_mm + self.undersize_mm.value) / self.width_mm

    def turns(self) -> tuple[float, ...]:
        """Return where it can be filed, where the pin just runs, and where it begins to rattle."""
        least = just_reaches(self.need_mm - self.file_mm.value)
        return positive(*(self._scale_for(mm) for mm in (least, just_reaches(self.need_mm), just_within(self.most_mm))))
