"""Belts at scale: the groove must take the belt's width, and teeth that are printed must keep the belt's pitch."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import told_apart
from planner.finding import Evidence, Finding, Verdict, Work
from planner.rules.fit.strip_tight import StripTight
from planner.rules.rule import at_least, at_most, just_within, positive
from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class BeltTight(StripTight):
    """``belt.tight``: the groove takes the belt, or a narrower one of its pitch."""

    rule: str = "belt.tight"

    def at(self, s: float) -> Finding:
        """Judge the groove at a scale."""
        measured, limit, verdict = self.opening_mm * s, self.needs_mm(self.strip_mm), self.verdict(s)
        has, needs = told_apart(measured, limit)
        remedy, work = "", None
        if verdict is Verdict.NO_GO:
            remedy = "widen the groove in the mesh, or take another belt"
        elif verdict is Verdict.GO_WITH_WORK:
            taken = self.taken_mm(s)
            remedy = f"take a belt {taken:g} mm wide instead"
            work = Work(kind="stock", hardware=self.feature, takes=f"{taken:g} mm belt", takes_mm=taken)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=verdict,
            measured=measured,
            limit=limit,
            unit="mm",
            why=f"the groove of {self.part} is {has} mm wide; {self.feature} of {self.strip_mm:g} mm needs {needs} mm",
            remedy=remedy,
            source=self.clearance_mm.source,
            work=work,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class BeltPitch:
    """``belt.pitch``: printed teeth keep the pitch of the belt, which does not scale."""

    part: str
    feature: str
    pitch_mm: float
    most_percent: Sourced
    rule: str = "belt.pitch"

    def at(self, s: float) -> Finding:
        """Judge the pitch at a scale."""
        has = f"{self.pitch_mm * s:.3f}"
        off = 100.0 * (s - 1.0)
        fits = at_most(off, self.most_percent.value) and at_least(off, -self.most_percent.value)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO if fits else Verdict.HOLD,
            measured=self.pitch_mm * s,
            limit=self.pitch_mm,
            unit="mm",
            why=f"at this size teeth for {self.feature} on {self.part} have a pitch of {has} mm; "
            f"the belt keeps {self.pitch_mm:g} mm",
            remedy="" if fits else f"if {self.part} has teeth, give it scale = 100.0; if not, take it out of joins",
            source=self.most_percent.source,
            question="" if fits else f"Does {self.part} carry teeth for {self.feature}?",
            evidence=Evidence.STATED,
        )

    def turns(self) -> tuple[float, ...]:
        """Return where the pitch just fits."""
        share = just_within(self.most_percent.value) / 100.0
        return positive(1.0 - share, 1.0 + share)
