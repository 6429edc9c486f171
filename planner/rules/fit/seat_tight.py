"""Seats of nuts, washers and inserts at scale, which keep their size."""

from __future__ import annotations

from dataclasses import dataclass, replace

from planner.digits import equal_words, told_apart
from planner.finding import Evidence, Finding, Vec3, Verdict
from planner.rules.rule import at_least, just_reaches, positive
from planner.sourced import Sourced

ACROSS_CORNERS = 2.0 / 3.0**0.5
"""A regular hexagon across its corners, by what it is across its flats: geometry."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatTight:
    """``seat.tight``: the printed pocket takes the nut or washer, or is filed until it does.

    ``flats`` are a nut's widths across flats by the diameter of the thread.
    """

    part: str
    feature: str
    hardware: str
    pocket_mm: float
    at_mm: Vec3 | None
    undersize_mm: Sourced
    size_mm: float
    clearance_mm: Sourced
    flats: tuple[tuple[float, float], ...] = ()
    supposed: bool = False
    """Whether only the mesh tells that this is its seat."""
    hexagon: bool = False
    """Whether its flats are to keep a nut from turning."""
    file_mm: Sourced | None = None
    """By how much a hand files it wider; None: what goes in asks for a true hole, as an insert does."""
    rule: str = "seat.tight"

    def sized(self, diameter_mm: float) -> SeatTight:
        """Return the rule for a nut of another thread; one that no table lists fits nowhere."""
        return replace(self, size_mm=dict(self.flats).get(diameter_mm, float("inf")))

    def _sides(self, s: float) -> tuple[float, float]:
        """Return the printed width at a scale, and what the nut or washer needs."""
        return self.pocket_mm * s - self.undersize_mm.value, self.size_mm + self.clearance_mm.value

    def fits(self, s: float) -> bool:
        """Return whether the pocket takes it at a scale."""
        return at_least(*self._sides(s))

    def verdict(self, s: float) -> Verdict:
        """Return the verdict at a scale."""
        if self.fits(s):
            return Verdict.GO
        if self.filed(s):
            return Verdict.GO_WITH_WORK
        return Verdict.HOLD if self.supposed else Verdict.NO_GO

    def filed(self, s: float) -> bool:
        """Return whether it is so little too narrow at a scale that a hand files it wider."""
        printed, need = self._sides(s)
        least = need - (0.0 if self.file_mm is None else self.file_mm.value)
        return not at_least(printed, need) and at_least(printed, least)

    def turns_in_it(self, s: float) -> bool:
        """Return whether a nut turns in its hexagon: as wide across the flats as the nut is across its corners."""
        return self.hexagon and at_least(self.pocket_mm * s - self.undersize_mm.value, self.size_mm * ACROSS_CORNERS)

    def at(self, s: float) -> Finding:
        """Judge the seat at a scale."""
        measured, limit, fits = *self._sides(s), self.fits(s)
        loose = f"{self.hardware} turns in its pocket: hold it with a spanner, or glue it in."
        has, needs = told_apart(measured, limit)
        asks = self.supposed and not fits and not self.filed(s)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.hardware,
            verdict=self.verdict(s),
            measured=measured,
            limit=limit,
            unit="mm",
            at_mm=self.at_mm,
            why=f"the seat of {self.hardware} prints at {has} mm; it needs {needs} mm"
            + ("" if fits else equal_words(measured, limit)),
            remedy="" if fits else self._remedy(s),
            source=f"{self.clearance_mm.source}; undersize: {self.undersize_mm.source}",
            caution=loose if self.turns_in_it(s) else "",
            question=f"Does {self.hardware} lie in the hexagonal pocket of {self.part}?" if asks else "",
            evidence=Evidence.GUESSED if asks else Evidence.MEASURED,
        )

    def _remedy(self, s: float) -> str:
        """Return what helps; where only the mesh tells that this is the seat, also what else may be."""
        how = "put the seat back to hardware size in the mesh"
        if self.filed(s):
            walls = "the flats" if self.hexagon else "the wall"
            how = f"file {walls} of the pocket until {self.hardware} goes in, to {self._sides(s)[1]:.2f} mm"
        return how + ("; or list the pocket under [[open]] where the nut lies elsewhere" if self.supposed else "")

    def turns(self) -> tuple[float, ...]:
        """Return where the seat just takes it, and where it can be filed."""
        need = self.size_mm + self.clearance_mm.value
        least = need - (0.0 if self.file_mm is None else self.file_mm.value)
        return positive(*((just_reaches(mm) + self.undersize_mm.value) / self.pocket_mm for mm in {need, least}))
