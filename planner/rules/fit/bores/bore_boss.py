"""``bore.boss``: whether the boss round a pilot is wide enough for a screw that cuts its own thread."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import equal_words, percent_or_more, told_apart
from planner.finding import Finding, Verdict
from planner.rules.rule import at_least, just_reaches, positive
from planner.sourced import Sourced
from planner.survey import Bore


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreBoss:
    """``bore.boss``: the boss's outside against the screw's diameter, else it splits when the screw goes in.

    ``edge_mm`` is the least wall beside the bore as drawn: the boss is taken to be as narrow all round.
    """

    part: str
    feature: str
    hardware: str
    screw_mm: float
    bore: Bore
    edge_mm: float
    times: Sourced
    rule: str = "bore.boss"

    def at(self, s: float) -> Finding:
        """Judge the boss at a scale."""
        measured, limit = self._drawn_mm() * s, self.times.value * self.screw_mm
        fits = at_least(measured, limit)
        decides = {at_least(measured, x * self.screw_mm) for x in (self.times.low, self.times.high)} != {fits}
        has, needs = told_apart(measured, limit)
        equal = "" if fits else equal_words(measured, limit)
        enough = percent_or_more(100.0 * limit / self._drawn_mm())
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=f"{self.hardware} in {self.bore.id} ({self.bore.drawn_diameter_mm:.2f} mm)",
            verdict=Verdict.GO if fits else Verdict.NO_GO,
            measured=measured,
            limit=limit,
            unit="mm",
            at_mm=self.bore.edge_at_mm or self.bore.centre_mm,
            why=f"{self.hardware}: the boss round {self.bore.id} is {has} mm wide where it is narrowest; "
            f"{self.times.value:g} times the screw is {needs} mm{equal}",
            remedy=""
            if fits
            else "take a thinner screw or a nut, or thicken the boss in the mesh; "
            f"at a scale of {enough} % or more, this boss by itself is wide enough",
            source=self.times.source,
            caution=f"Bosses of {self.times.low:g} to {self.times.high:g} times the screw are usual, and the answer "
            "changes in between: drive one screw into a spare part first."
            if decides
            else "",
            question=f"Does a spare {self.part} take {self.hardware} without a crack?" if decides else "",
        )

    def turns(self) -> tuple[float, ...]:
        """Return where the boss is just wide enough."""
        return positive(just_reaches(self.times.value * self.screw_mm) / self._drawn_mm())

    def _drawn_mm(self) -> float:
        """Return the boss's outside as drawn."""
        return self.bore.drawn_diameter_mm + 2.0 * self.edge_mm
