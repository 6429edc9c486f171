"""What a slot for webbing and a groove for a belt have in common: a strip of stock width, or the next narrower one."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Verdict
from planner.rules.rule import at_least, just_reaches, positive
from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class StripTight:
    """The printed opening takes a strip, or a narrower one of the stock; ``narrower_mm``, widest first."""

    part: str
    feature: str
    opening_mm: float
    strip_mm: float
    narrower_mm: tuple[float, ...]
    clearance_mm: Sourced

    def needs_mm(self, strip_mm: float) -> float:
        """Return the opening that a strip needs."""
        return strip_mm + self.clearance_mm.value

    def taken_mm(self, s: float) -> float | None:
        """Return the strip that is taken at a scale, as stated or narrower; None where none fits."""
        has = self.opening_mm * s
        return next((one for one in (self.strip_mm, *self.narrower_mm) if at_least(has, self.needs_mm(one))), None)

    def verdict(self, s: float) -> Verdict:
        """Return the verdict at a scale."""
        taken = self.taken_mm(s)
        if taken is None:
            return Verdict.NO_GO
        return Verdict.GO if taken == self.strip_mm else Verdict.GO_WITH_WORK

    def turns(self) -> tuple[float, ...]:
        """Return where each strip just fits."""
        each = (self.strip_mm, *self.narrower_mm)
        return positive(*(just_reaches(self.needs_mm(strip)) / self.opening_mm for strip in each))
