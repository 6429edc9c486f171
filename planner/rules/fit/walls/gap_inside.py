"""``gap.inside``: bodies of one mesh that are drawn apart stay apart when they print, as a hinge in place."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Finding
from planner.rules.fit.part_case import PartCase
from planner.rules.fit.walls.kept_open import enough_percent, kept_open, open_from
from planner.rules.rule import Rule
from planner.sourced import Sourced
from planner.survey import InnerGap


@dataclass(frozen=True, slots=True, kw_only=True)
class GapInside:
    """The narrowest gap between the bodies of one mesh, against what the printer keeps open.

    Whether they are to move on each other is nowhere stated, so that too little is a hold.
    """

    part: str
    gap: InnerGap
    least_mm: Sourced
    rule: str = "gap.inside"
    feature: str = "its bodies"

    def at(self, s: float) -> Finding:
        """Judge the gap at a scale."""
        bodies = f"the mesh is in {self.gap.bodies_n} bodies"
        return kept_open(
            self,
            self.gap.gap_mm * s,
            self.least_mm,
            self.gap.at_mm,
            told=lambda has: f"{bodies}, which print {has} mm apart where they are nearest",
            closed="they may fuse",
            remedy=self._remedy(),
            question=f"Do the bodies of {self.part} move on each other, printed in place?",
        )

    def _remedy(self) -> str:
        """Say what to do in either case."""
        enough = enough_percent(self.gap.gap_mm, self.least_mm)
        return (
            f"if they move on each other, print {self.part} at {enough} % or more, or draw its bodies further apart; "
            "if they are one piece, draw them joined"
        )

    def turns(self) -> tuple[float, ...]:
        """Return the scale at which the gap just stays open."""
        return open_from(self.gap.gap_mm, self.least_mm)


def gap_inside_rules(case: PartCase) -> list[Rule]:
    """Bind the rule where a part's mesh is in several bodies that lie near each other."""
    gap = case.survey.inner_gap
    return [] if gap is None else [GapInside(part=case.part.name, gap=gap, least_mm=case.job.printer.least_gap_mm)]
