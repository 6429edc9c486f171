"""``work.done`` on the outside of a part: a peg that is sanded, or a width that is filed, as the job states it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planner.finding import Finding, Vec3, Verdict, Work
from planner.job import HandWork
from planner.rules.rule import at_most, positive
from planner.sourced import Sourced

FLAT_TOO = ", its flat as well"


@dataclass(frozen=True, slots=True, kw_only=True)
class OutsideDone:
    """What the work takes off at a scale: it is listed, and much of it is called so.

    ``most_mm`` is what sandpaper takes off, ``factor`` the part's own scale, None where the job's holds.
    """

    part: str
    feature: str
    drawn_mm: float
    at_mm: Vec3
    work: HandWork
    most_mm: Sourced
    factor: float | None = None
    flat: bool = False
    """Whether a flat or a keyway is cut into the peg, which goes in no thinner than it was without it."""
    rule: str = "work.done"

    def at(self, s: float) -> Finding:
        """Judge the work at a scale."""
        printed = self.drawn_mm * (s if self.factor is None else self.factor)
        off_mm = printed - self.work.to_mm
        does, much = off_mm > 0.0, not at_most(off_mm, self.most_mm.value)
        caution = (
            f"That is {off_mm:.2f} mm off: draw it thinner where nothing but sandpaper is at hand." if much else ""
        )
        kind: Literal["sand", "file"] = "sand" if self.work.kind == "sand" else "file"
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO_WITH_WORK if does else Verdict.GO,
            measured=printed,
            limit=self.work.to_mm,
            unit="mm",
            at_mm=self.at_mm,
            why=f"the job says of {self.feature}: {self.work.told}; it prints at {printed:.2f} mm",
            remedy=f"{self.work.told}{FLAT_TOO if self.flat else ''}" if does else "",
            source=self.most_mm.source,
            caution=caution if does else "The stated work changes nothing at this size.",
            work=Work(kind=kind, hardware="", to_mm=self.work.to_mm) if does else None,
        )

    def turns(self) -> tuple[float, ...]:
        """Return where the work begins to do something."""
        return () if self.factor is not None else positive(self.work.to_mm / self.drawn_mm)
