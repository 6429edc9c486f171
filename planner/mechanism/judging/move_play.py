"""``move.play``: how far the tip wobbles, as a note, or against a limit that somebody stated."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import told_apart
from planner.finding import Finding, Verdict
from planner.mechanism.judging.curve_over_scale import Curve
from planner.mechanism.judging.move_rule import MoveRule


@dataclass(frozen=True, slots=True, kw_only=True)
class MovePlay(MoveRule):
    """Wobble at the tip over scale, at worst and for nine of ten printers, both as curves in mm."""

    worst_mm: Curve
    usual_mm: Curve
    most_mm: float | None
    rule: str = "move.play"
    unit: str = "mm"
    source: str = "geometry: bore less pin, through the chain of joints"

    def at(self, s: float) -> Finding:
        """Note the wobble; a stated limit makes a no-go of more."""
        worst, usual = self.worst_mm.at(s), self.usual_mm.at(s)
        passes = self.most_mm is None or worst <= self.most_mm
        told = f"{self.feature} wobbles {worst:.1f} mm at worst, on nine of ten printers {usual:.1f} mm or less"
        if self.most_mm is not None:
            has, most = told_apart(worst, self.most_mm, 1)
            told += f"; {has} mm against the {most} mm that is stated"
        if passes:
            return self.found(Verdict.GO, worst, self.most_mm, told)
        return self.found(Verdict.NO_GO, worst, self.most_mm, told, "closer bores, longer bearings or a larger scale")

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which the wobble passes the stated limit."""
        return () if self.most_mm is None else self.worst_mm.crossings(self.most_mm)
