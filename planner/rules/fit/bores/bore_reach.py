"""``bore.reach``: whether a drill reaches a bore that is drilled, past what the part itself puts in its way."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from planner.assembly import BoreEnd
from planner.finding import Finding, Verdict
from planner.rules.fit.bores.drill_lengths import SOURCE, drill_length
from planner.rules.rule import at_least, at_most, just_reaches, just_within, positive
from planner.survey import Bore

LABELS = ("+x", "-x", "+y", "-y", "+z", "-z")
LEVEL = 0.9
"""An axis that leans less than 26 degrees is told by the direction it lies in."""


class Drilled(Protocol):
    """What tells at a scale how wide a bore is drilled; None where it stays as it prints."""

    def drill_mm(self, s: float) -> float | None:
        """Return the drill's diameter at a scale, in mm."""

    @property
    def drills_mm(self) -> tuple[float, ...]:
        """Every diameter that it may be drilled to, in mm."""

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which that may change."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreReach:
    """``bore.reach``: a drill must stand before a mouth of the bore, and reach from its chuck to the bore's end.

    From a mouth the drill stands out of its chuck by the bore's depth and by what stands out beside the mouth; its
    flutes are so long. Where matter stands on the axis nearer than the drill is long, no drill goes in there.
    """

    part: str
    feature: str
    bore: Bore
    drilled: Drilled
    ends: tuple[BoreEnd, ...]
    rule: str = "bore.reach"

    def at(self, s: float) -> Finding:
        """Judge the reach at a scale."""
        drill = self.drilled.drill_mm(s)
        if drill is None or self.reached(s):
            told = "is not drilled at this size" if drill is None else "is reached by a drill"
            return self._found(Verdict.GO, f"{self.bore.id} {told}", "")
        jobber, long = self._open(s, drill, reach="jobber"), self._open(s, drill, reach="long")
        told = f"{self.bore.id} has to be drilled to {drill:.2f} mm, {self.bore.depth_mm * s:.1f} mm deep"
        shut = f"{told}: {self._in_the_way(s, drill)}"
        if jobber:
            return self._found(Verdict.GO_WITH_WORK, shut, f"drill it from its {_side(jobber[0])} side only")
        if long:
            flutes = drill_length(drill).flutes_mm
            cure = f"take a long drill (the flutes of a common one are {flutes:g} mm), from its {_side(long[0])} side"
            return self._found(Verdict.GO_WITH_WORK, shut, cure)
        cure = "put the bore back to hardware size in the mesh, or widen it by hand with sandpaper round a rod"
        ask = f"Does a tool of yours, such as a short reamer, reach {self.bore.id} of {self.part}?"
        return self._found(Verdict.HOLD, shut, cure, ask)

    def reached(self, s: float) -> bool:
        """Return whether the bore stays as it prints, or a common drill reaches it from every mouth."""
        drill = self.drilled.drill_mm(s)
        mouths = sum(end.free_mm != 0.0 for end in self.ends)
        return drill is None or 0 < mouths == len(self._open(s, drill, reach="jobber"))

    def _open(self, s: float, drill_mm: float, *, reach: str) -> list[BoreEnd]:
        """Return the mouths from which a drill reaches the bore's end."""
        lengths = drill_length(drill_mm)
        flutes = lengths.flutes_mm if reach == "jobber" else lengths.long_flutes_mm
        return [
            end
            for end in self.ends
            if (end.free_mm is None or at_least(end.free_mm * s, lengths.whole_mm))
            and at_most((self.bore.depth_mm + end.beside_mm) * s, flutes)
        ]

    def _in_the_way(self, s: float, drill_mm: float) -> str:
        """Say what keeps a drill out of the mouths that are no floor."""
        lengths, told = drill_length(drill_mm), []
        for end in self.ends:
            if end.free_mm == 0.0:
                continue
            if end.free_mm is not None and not at_least(end.free_mm * s, lengths.whole_mm):
                told.append(f"on its {_side(end)} side a wall stands in the drill's way, {end.free_mm * s:.1f} mm off")
            elif not at_most((self.bore.depth_mm + end.beside_mm) * s, lengths.flutes_mm):
                deep = (self.bore.depth_mm + end.beside_mm) * s
                beside = f", {end.beside_mm * s:.0f} mm of that past what stands beside it" if end.beside_mm else ""
                told.append(
                    f"from its {_side(end)} side the drill must reach {deep:.0f} mm{beside}; "
                    f"a common drill's flutes are {lengths.flutes_mm:g} mm long"
                )
        return "; ".join(told) or "neither side opens to a drill"

    def _found(self, verdict: Verdict, why: str, remedy: str, ask: str = "") -> Finding:
        """Return the finding."""
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=f"{self.feature} ({self.bore.drawn_diameter_mm:.2f} mm)",
            verdict=verdict,
            unit="mm",
            at_mm=self.bore.centre_mm,
            why=why,
            remedy=remedy,
            source=SOURCE,
            question=ask,
        )

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which a drill begins or ends to reach, for every drill that may be taken."""
        turns = set(self.drilled.turns())
        for drill in self.drilled.drills_mm:
            lengths = drill_length(drill)
            for end in self.ends:
                far = self.bore.depth_mm + end.beside_mm
                turns |= {just_within(each) / far for each in (lengths.flutes_mm, lengths.long_flutes_mm)}
                if end.free_mm:
                    turns.add(just_reaches(lengths.whole_mm) / end.free_mm)
        return positive(*turns)


def _side(end: BoreEnd) -> str:
    """Name a mouth by the direction it opens in, or by its unit vector where it leans."""
    for k, value in enumerate(end.way):
        if abs(value) > LEVEL:
            return LABELS[2 * k + (value < 0)]
    return "[" + ", ".join(f"{value:.2f}" for value in end.way) + "]"
