"""Walls at scale: thick enough for the lines that must lie side by side in them."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import digits_for
from planner.finding import Finding, Vec3, Verdict
from planner.job import Limits
from planner.rules.fit.part_case import PartCase
from planner.rules.rule import ConstantVerdict, Rule
from planner.sourced import Sourced
from planner.survey import LayerView


@dataclass(frozen=True, slots=True, kw_only=True)
class WallBetween(ConstantVerdict):
    """``wall.between``: a wall between one line and two has a gap inside; a note, never worse than go."""

    part: str
    thickness_mm: float
    at_mm: Vec3
    line_width_mm: float
    limits: Limits
    rule: str = "wall.between"
    feature: str = "wall"

    def at(self, s: float) -> Finding:
        """Judge the wall at a scale."""
        measured = self.thickness_mm * s
        low, high = self._ends_mm
        between = low < measured < high
        n = max(digits_for(measured, low), digits_for(measured, high))
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO,
            measured=measured,
            limit=high,
            unit="mm",
            at_mm=self.at_mm,
            why=f"thinnest wall {measured:.{n}f} mm; one of {low:.{n}f} to {high:.{n}f} mm has a gap between its lines",
            source=self.limits.wall_between_low_lines.source,
            caution="The wall holds more than one line and fewer than two: it will have a gap inside."
            if between
            else "",
        )

    @property
    def _ends_mm(self) -> tuple[float, float]:
        """Return both ends of the range that leaves a gap."""
        w = self.line_width_mm
        return self.limits.wall_between_low_lines.value * w, self.limits.wall_between_high_lines.value * w


@dataclass(frozen=True, slots=True, kw_only=True)
class WallUnlaid(ConstantVerdict):
    """``wall.unlaid``: what is narrower than a line in the layers of the chosen pose; a note, never worse than go."""

    part: str
    view: LayerView
    line_width_mm: float
    most_percent: Sourced
    rule: str = "wall.unlaid"
    feature: str = "wall"

    def at(self, s: float) -> Finding:
        """Judge the layers at a scale: a line of w at scale s opens what one of w/s opens as drawn."""
        width = self.line_width_mm / s
        measured, limit = 100.0 * self.view.unlaid_share(width), self.most_percent.value
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO,
            measured=measured,
            limit=limit,
            unit="%",
            why=f"{measured:.1f} % of the part's layers is narrower than a line of {self.line_width_mm:g} mm",
            source=f"opening of sections in the chosen pose; {self.most_percent.source}",
            caution=""
            if measured <= limit
            else f"That share will not be printed, mostly {self.view.worst_height_mm(width) * s:.1f} mm above the bed: "
            "slivers and edges come out short.",
        )


def unlaid_rules(case: PartCase) -> list[Rule]:
    """Bind the rule of what a line cannot lay; none for an unsound mesh, which is a hold already."""
    if case.view is None or isinstance(case.part.scale_percent, tuple):
        return []
    width, most = case.job.settings.line_width_mm.value, case.job.limits.unlaid_percent
    return [WallUnlaid(part=case.part.name, view=case.view, line_width_mm=width, most_percent=most)]
