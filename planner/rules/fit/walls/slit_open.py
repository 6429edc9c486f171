"""``gap.slit``: two faces of one body that are drawn near each other print apart, as those of a collet or a clamp."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planner.finding import Finding
from planner.job import Job
from planner.rules.fit.walls.kept_open import enough_percent, kept_open, open_from
from planner.rules.rule import Rule
from planner.sourced import Sourced
from planner.survey import Slit


@dataclass(frozen=True, slots=True, kw_only=True)
class SlitOpen:
    """The narrowest slit in a part, against what the printer keeps open.

    What closes up no longer springs, or takes nothing; whether it has to is nowhere stated, so that too little is a
    hold.
    """

    part: str
    slit: Slit
    least_mm: Sourced
    rule: str = "gap.slit"
    feature: str = "its slit"

    def at(self, s: float) -> Finding:
        """Judge the slit at a scale."""
        size = f"{self.slit.long_mm * s:.1f} mm long and {self.slit.deep_mm * s:.1f} mm deep"
        return kept_open(
            self,
            self.slit.width_mm * s,
            self.least_mm,
            self.slit.at_mm,
            told=lambda has: f"its narrowest slit, {size}, prints {has} mm wide",
            closed="it may print closed",
            remedy=self._remedy(),
            question=f"Does the slit of {self.part} have to stay open, as where it springs or clamps?",
        )

    def _remedy(self) -> str:
        """Say what to do in either case."""
        enough = enough_percent(self.slit.width_mm, self.least_mm)
        return (
            f"if it has to stay open, draw it wider, or print {self.part} at {enough} % or more; "
            "if it may close, lift the hold with [[override]]"
        )

    def turns(self) -> tuple[float, ...]:
        """Return the scale at which the slit just stays open."""
        return open_from(self.slit.width_mm, self.least_mm)


def slit_rules(job: Job, slits: Mapping[str, Slit | None]) -> tuple[Rule, ...]:
    """Bind the rule to the slits of the parts that a job prints."""
    found = ((part.name, slits.get(part.name)) for part in job.parts)
    least_mm = job.printer.least_gap_mm
    return tuple(SlitOpen(part=name, slit=slit, least_mm=least_mm) for name, slit in found if slit is not None)
