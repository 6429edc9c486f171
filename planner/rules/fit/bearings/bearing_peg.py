"""``bearing.peg``: a printed peg in the bore of something bought. The peg grows with the scale, the bore does not."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import told_apart
from planner.finding import Evidence, Finding, Verdict
from planner.rules.rule import at_least, at_most, just_reaches, just_within, positive
from planner.sourced import Sourced
from planner.survey import Peg


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherRing:
    """A stock bearing that the seat may take instead: its name, its bore, and at which sizes the seat does."""

    label: str
    hole_mm: float
    low_factor: float
    high_factor: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BearingPeg:
    """The peg as it prints against a bore that is bought: it goes in, or is sanded, and does not rattle.

    ``part`` and ``feature`` are the peg's; ``spread_mm`` is how much thicker or thinner than drawn it may print,
    ``sand_mm`` what a hand takes off its diameter, ``play_mm`` what it may have; None where what is bought need not be
    filled. ``sure`` tells that it is drawn there, or that a joint is stated: what hangs on its size is a question.
    """

    part: str
    feature: str
    peg: Peg
    ring: str
    seat_part: str
    hole_mm: float
    in_place: bool
    sure: bool
    spread_mm: Sourced
    sand_mm: Sourced
    play_mm: Sourced | None
    sleeve_mm: Sourced
    """Least wall of a sleeve; thinner ones are wound."""
    others: tuple[OtherRing, ...] = ()
    sanded_mm: float | None = None
    """How thick the peg is at most after the work that the job states; None where it states none."""
    rule: str = "bearing.peg"

    def at(self, s: float) -> Finding:
        """Judge the peg at its part's scale."""
        has, off_mm = self.printed_mm(s), self.spread_mm.value
        verdict, over = self._verdict(s, 0.0), has - self.hole_mm
        decides = any(self._verdict(s, mm) is not verdict for mm in (-off_mm, off_mm))
        fits = verdict is Verdict.GO
        asks = not self.sure and not fits
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.HOLD if asks else verdict,
            measured=has,
            limit=self.hole_mm,
            unit="mm",
            at_mm=self.peg.centre_mm,
            why=self._why(has, fits=fits),
            remedy="" if fits else ("if it goes in, " if asks else "") + self._remedy(s, over),
            source=self.spread_mm.source,
            caution=f"Printed pegs differ: measure it, and sand it to {self.hole_mm:.2f} mm where it is thicker."
            if decides and fits
            else "",
            question=self._question(over) if asks or verdict is Verdict.HOLD else "",
            evidence=Evidence.STATED if self.sure else Evidence.GUESSED,
        )

    def printed_mm(self, s: float) -> float:
        """Return how thick the peg is at its part's scale, after the work that the job states."""
        return self._sanded(self.peg.diameter_mm * s)

    def _sanded(self, printed_mm: float) -> float:
        """Return how thick it is after the work that the job states."""
        return printed_mm if self.sanded_mm is None or printed_mm < self.sanded_mm else self.sanded_mm

    def _verdict(self, s: float, spread_mm: float) -> Verdict:
        """Return the verdict for so much more than drawn, as if it were sure that the peg goes in."""
        has = self._sanded(self.peg.diameter_mm * s + spread_mm)
        if at_most(has, self.hole_mm):
            loose = self.play_mm is not None and not at_least(has, self.hole_mm - self.play_mm.value)
            return Verdict.HOLD if loose else Verdict.GO
        return Verdict.GO_WITH_WORK if at_most(has, self.hole_mm + self.sand_mm.value) else Verdict.NO_GO

    def _why(self, has: float, *, fits: bool) -> str:
        """Say what goes in what."""
        drawn = "is drawn in" if self.in_place else "is of a size to go into"
        peg_mm, hole_mm = told_apart(has, self.hole_mm)
        by = "printed" if has != self.sanded_mm else "sanded"
        told = f"the peg {self.peg.id} of {self.part}, {by} {peg_mm} mm thick, {drawn} {self.ring} in "
        told += f"{self.seat_part}, whose bore stays {hole_mm} mm"
        return told if fits else f"{told}: it does not go in" if has > self.hole_mm else f"{told}: it rattles"

    def _remedy(self, s: float, over: float) -> str:
        """Say what makes it fit: sandpaper or a sleeve, the peg drawn to size, its part as drawn, another bearing."""
        if 0.0 < over <= self.sand_mm.value:
            return f"sand {self.peg.id} to {self.hole_mm:.2f} mm"
        percent = 100.0 * self.hole_mm / self.peg.diameter_mm
        ways = [f"draw {self.peg.id} {self.hole_mm / s:.2f} mm thick, which prints at {self.hole_mm:.2f}"]
        if over <= 0.0:
            inside = self.peg.diameter_mm * s
            sleeve = f"fit a sleeve {inside:.2f} mm inside and {self.hole_mm:.2f} mm outside"
            wound = f"wind tape or shim round {self.peg.id} until it is {self.hole_mm:.2f} mm thick"
            ways.insert(0, sleeve if at_least(-over, 2 * self.sleeve_mm.value) else wound)
        ways.append(f"give {self.part} scale = {percent:.4g} where all of it may keep that size")
        fitting = [one for one in self.others if one.low_factor <= s <= one.high_factor and self._suits(one, s)]
        ways += [f"take a bearing {one.label}" for one in fitting[:1]]
        return ", or ".join(ways)

    def _suits(self, other: OtherRing, s: float) -> bool:
        """Return whether the peg goes into another bearing's bore, sanded or as it is, and does not rattle there."""
        over = self.peg.diameter_mm * s - other.hole_mm
        least = -self.play_mm.value if self.play_mm else -other.hole_mm
        return at_least(over, least) and at_most(over, self.sand_mm.value)

    def _question(self, over: float) -> str:
        """Ask what decides: whether it goes in at all, or what fills the bore about it."""
        if not self.sure:
            return f"Does the peg {self.peg.id} of {self.part} go into {self.ring} in {self.seat_part}?"
        filled = f"Does a sleeve, tape or shim fill the bore of {self.ring} about {self.peg.id} of {self.part}?"
        return filled if over <= 0.0 else ""

    def turns(self) -> tuple[float, ...]:
        """Return where it goes in, where sanding does, and where it rattles, at every end of what printers do."""
        ends = [just_within(self.hole_mm), just_within(self.hole_mm + self.sand_mm.value)]
        ends += [just_reaches(self.hole_mm - self.play_mm.value)] if self.play_mm else []
        ends += [] if self.sanded_mm is None else [self.sanded_mm]
        spreads = (-self.spread_mm.value, 0.0, self.spread_mm.value)
        return positive(*((end - spread) / self.peg.diameter_mm for end in ends for spread in spreads))
