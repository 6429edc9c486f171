"""Belts at scale: the groove must take the belt's width, and teeth that are printed must keep the belt's pitch."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import told_apart
from planner.finding import Evidence, Finding, Verdict, Work
from planner.rules.rule import at_least, at_most, just_reaches, just_within, positive
from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class BeltTight:
    """``belt.tight``: the groove takes the belt, or a narrower one of its pitch; ``narrower_mm``, widest first."""

    part: str
    feature: str
    groove_mm: float
    belt_mm: float
    narrower_mm: tuple[float, ...]
    clearance_mm: Sourced
    rule: str = "belt.tight"

    def at(self, s: float) -> Finding:
        """Judge the groove at a scale."""
        measured, limit = self.groove_mm * s, self.belt_mm + self.clearance_mm.value
        has, needs = told_apart(measured, limit)
        verdict, remedy, work = Verdict.GO, "", None
        if not at_least(measured, limit):
            fits = [width for width in self.narrower_mm if at_least(measured, width + self.clearance_mm.value)]
            verdict, remedy = Verdict.NO_GO, "widen the groove in the mesh, or take another belt"
            if fits:
                verdict, remedy = Verdict.GO_WITH_WORK, f"take a belt {fits[0]:g} mm wide instead"
                work = Work(kind="stock", hardware=self.feature, takes=f"{fits[0]:g} mm belt", takes_mm=fits[0])
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=verdict,
            measured=measured,
            limit=limit,
            unit="mm",
            why=f"the groove of {self.part} is {has} mm wide, {self.feature} of {self.belt_mm:g} mm needs {needs} mm",
            remedy=remedy,
            source=self.clearance_mm.source,
            work=work,
        )

    def turns(self) -> tuple[float, ...]:
        """Return where each width just fits."""
        each = (self.belt_mm, *self.narrower_mm)
        return positive(*(just_reaches(width + self.clearance_mm.value) / self.groove_mm for width in each))


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
            why=f"at this size teeth for {self.feature} on {self.part} have a pitch of {has} mm, "
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
