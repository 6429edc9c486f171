"""``move.range``: how far a joint turns or slides at size, against what it ought to reach."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from planner.digits import told_apart
from planner.finding import Finding, Verdict
from planner.mechanism.judging.curve_over_scale import Curve
from planner.mechanism.judging.move_rule import MoveRule
from planner.mechanism.judging.range_ends import FAR
from planner.mechanism.range.joint_range import LeastGap
from planner.phrases import listed

SOURCE = "geometry: solids turned until they meet"
SAME = 0.05
"""Ends that differ by less, in degrees or mm, are one: a stop may be drawn just where it is needed."""
MORE = " and judge again: more may lie behind it"
MOST_OFF_MM = 6.0
"""No corner is relieved by more: then the whole part is in the way; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveEnd:
    """One end of a joint's range over scale; ``curve`` is None where nothing stops it.

    ``meets`` says what stops it, such as ``"jaw meets deck"``, ``reach_mm`` how far from the axis, as drawn.
    """

    curve: Curve | None
    meets: str
    reach_mm: float
    guess: str = ""
    """The question about what stops it, hardware of a usual size or what stands at an angle that nobody stated; empty
    where that is no guess."""
    leader: str = ""
    """The joint that leads this one in a closed chain, where the chain goes no farther."""
    cure: str = ""
    """What helps where no material is in the way: a stated limit, a chain that locks, another joint that leads."""
    doubt: str = ""
    """The question on which it hangs how the joint goes at all; empty where that is shown or stated."""
    soft: bool = False
    """Whether what stops it is a cord or padding."""
    behind: MoveEnd | None = None
    """What stops it without what is soft or a guess; None where neither stops it, or nobody said how far it must go."""

    def at(self, s: float) -> float | None:
        """Return where the range ends at a scale; None where nothing stops it there."""
        if self.curve is None:
            return None
        end = self.curve.at(s)
        return end if -FAR < end < FAR else None


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveRange(MoveRule):
    """Whether a joint covers what is needed of it; angles count from the drawn place.

    ``unit`` is ``°``, or ``mm`` where it slides: what it needs then grows with the device.
    """

    low: MoveEnd
    high: MoveEnd
    needs: tuple[float, float] | None
    """None where nobody said what it ought to reach: then its range is told and asked for, not judged."""
    near: LeastGap | None
    """The least gap on the way that is needed, as drawn."""
    clear_mm: float
    """What printed faces that slide by each other need between them."""
    unplaced: tuple[str, ...]
    """Copies whose place is not known: they may be in the way."""
    loose: tuple[str, ...] = ()
    """Copies that may stand at any angle: elsewhere they may be in the way."""
    sunk: tuple[str, ...] = ()
    """Two copies that lie in each other at rest: one of them cannot stand there; empty where none do."""
    guess: str = ""
    """The question on which it hangs that the joint goes so at all; empty where that is shown or stated."""
    padded: tuple[MoveEnd | None, MoveEnd | None] = (None, None)
    """Both ends with padding on the worst side, where nobody says on which it lies; None where that stops nothing."""
    off: tuple[bool, bool] = (False, False)
    """Whether a slide has left the faces that guide it, at the low and at the high end of its need."""
    rule: str = "move.range"
    source: str = SOURCE

    def at(self, s: float) -> Finding:
        """Compare the free range with the needed one; what is missing most is what is measured."""
        low, high = self.low.at(s), self.high.at(s)
        if self.needs is None:
            return replace(
                self.found(Verdict.GO, high, None, f"{self.feature}: it goes {_told(low, high, self.unit)}"),
                question=f"How far must {self.feature} go, in {self.unit} from the drawn place?",
                caution=_both(
                    "Its needed range is not stated (needs_deg), so its range is not judged.", self._open(low, high)
                ),
            )
        grows = s if self.unit == "mm" else 1.0
        needs_low, needs_high = self.needs[0] * grows, self.needs[1] * grows
        short_low = 0.0 if low is None else low - needs_low
        short_high = 0.0 if high is None else needs_high - high
        if short_low <= SAME and short_high <= SAME:
            goes = self.found(Verdict.GO, high, needs_high, f"{self.feature}: it goes {_told(low, high, self.unit)}")
            goes = replace(goes, caution=_both(self._rubs(s), self._open(low, high)))
            return self._unless_guessed(self._on_its_guides(goes, (needs_low, needs_high)), s)
        found = [self._short(self.high, high, needs_high, 1.0, s)] if short_high > SAME else []
        found += [self._short(self.low, low, needs_low, -1.0, s)] if short_low > SAME else []
        found = [one for one in found if one.verdict is Verdict.NO_GO] or found
        return found[0] if len(found) == 1 or short_high >= short_low else found[1]

    def _rubs(self, s: float) -> str:
        """Say what comes so near on the way that it may rub as printed; empty where nothing does."""
        if self.near is None or s * self.near.gap_mm >= self.clear_mm:
            return ""
        one, other = self.near.parts
        return (
            f"{other} passes {one} by {s * self.near.gap_mm:.2f} mm at {self.near.at_deg:.1f}{_behind(self.unit)}: "
            f"printed faces need {self.clear_mm:g} mm, so try it, and file where it rubs."
        )

    def _open(self, low: float | None, high: float | None) -> str:
        """Say that nothing keeps a slide on its guides; empty where something ends its way on both sides."""
        ends = [word for word, end in (("the low", low), ("the high", high)) if end is None]
        if self.unit != "mm" or not ends:
            return ""
        return f"Nothing ends its way at {listed(ends, 'or')} end: it can run off there."

    def _on_its_guides(self, found: Finding, needs: tuple[float, float]) -> Finding:
        """Hold a slide that nothing stops before its need, where nothing guides it any more there."""
        if found.verdict is not Verdict.GO or not any(self.off):
            return found
        at = listed(f"{end:.1f} mm" for end, off in zip(needs, self.off, strict=True) if off)
        why = f"at {at} it has left the faces that guide it"
        cure = "make its guides longer, or ask for less range"
        return self._held(found, why, cure, f"What holds {self.feature} at {at}?")

    def _short(self, end: MoveEnd, has: float | None, needs: float, sense: float, s: float) -> Finding:
        """Say that one end is not reached, what is in the way, and how much of it; ``sense``: 1 above, -1 below."""
        if end.behind is not None:
            farther = end.behind.at(s)
            if farther is not None and sense * (needs - farther) > SAME:  # what lies behind does not give way
                return self._short(end.behind, farther, needs, sense, s)
        short = sense * (needs - (0.0 if has is None else has))
        told, limit = told_apart(0.0 if has is None else has, needs, 1)
        away = short * end.reach_mm * s * math.pi / 180.0 if self.unit == "°" else short
        unit = _behind(self.unit)
        why = f"{self.feature}: it stops at {told}{unit}: {end.meets}; {limit}{unit} is needed"
        off = f"take about {away + self.clear_mm:.2f} mm off where they meet{MORE}"
        if away > MOST_OFF_MM:
            off = f"move what is in the way, which reaches about {away + self.clear_mm:.0f} mm too far{MORE}"
        remedy = f"{end.cure or off}, or ask for less range"
        if end.leader:
            return self.found(
                Verdict.HOLD, has, needs, why, remedy, f"Which drives the chain: {end.leader}, or {self.feature}?"
            )
        if end.soft:
            way = "take thinner padding" if "the padding of" in end.meets else "lead the cord another way"
            cure = f"{way}, make room there, or ask for less range"
            ask = f"Does what is soft there give way, so that {self.feature} gets to {limit}{unit} on the bench?"
            return self.found(Verdict.HOLD, has, needs, f"{why}; a cord or padding may give way", cure, ask)
        if end.guess:
            return self.found(Verdict.HOLD, has, needs, f"{why}, and nobody has stated it", remedy, end.guess)
        if end.doubt or self.guess:
            return self.found(Verdict.HOLD, has, needs, why, remedy, end.doubt or self.guess)
        return self.found(Verdict.NO_GO, has, needs, why, remedy)

    def _unless_guessed(self, found: Finding, s: float) -> Finding:
        """Hold a range that is free where it hangs on a guess: a slide, a place, an angle or a padded side."""
        if self.sunk:
            one, other = self.sunk
            why = f"{other} lies partly inside {one} at the drawn place, where both cannot be"
            ask = f"Do {one} and {other} stand where the job says?"
            return self._held(found, why, f"correct the [[place]] of {other}, or the meshes", ask)
        if self.guess:
            why, cure = "that rests on a slide that nobody states", "state that slide as a [[joint]]"
            return self._held(found, why, cure, self.guess)
        if self.unplaced:
            some = ", ".join(self.unplaced)
            why = f"the place of {some} is not known, and it may be in the way"
            return self._held(found, why, f"give {some} a [[place]]", f"Where do these stand: {some}?")
        if self.loose:
            some = ", ".join(self.loose)
            why = f"{some} may stand at any angle, and elsewhere be in the way"
            return self._held(found, why, f"give {some} a [[place]]", f"At which angle do these stand: {some}?")
        for end, needs, sense in zip(self.padded, self.needs or (), (-1.0, 1.0), strict=False):
            at, grows = None if end is None else end.at(s), s if self.unit == "mm" else 1.0
            if end is not None and at is not None and sense * (needs * grows - at) > SAME:
                why = f"{end.meets} may stop it at {at:.1f}{_behind(self.unit)}: which side it covers is not stated"
                ask = f"On which side of {end.doubt} does its padding lie?"
                return self._held(found, why, f"write skin_toward of {end.doubt}", ask)
        return found

    def _held(self, found: Finding, why: str, remedy: str, question: str) -> Finding:
        """Return a go as a hold, with why and what would settle it."""
        return replace(
            found, verdict=Verdict.HOLD, why=f"{found.why}; {why}", remedy=remedy, question=question, caution=""
        )

    def turns(self) -> tuple[float, ...]:
        """Return every scale at which an end meets its need, or the worse end changes."""
        found: list[float] = []
        if self.needs is None:
            return ()
        for end, behind, needs, sense in zip(
            (self.low, self.high), (self.low.behind, self.high.behind), self.needs, (-1.0, 1.0), strict=True
        ):
            padded = self.padded[sense > 0.0]
            for curve in (one.curve for one in (end, behind, padded) if one is not None and one.curve is not None):
                grows = curve.scales if self.unit == "mm" else [1.0] * len(curve.scales)
                way = tuple(v - needs * g for g, v in zip(grows, curve.values, strict=True))
                found += Curve(scales=curve.scales, values=way).crossings(-sense * SAME)
        return tuple(sorted(found))


def _both(one: str, other: str) -> str:
    """Return two cautions as one text; empty ones are left out."""
    return " ".join(text for text in (one, other) if text)


def _told(low: float | None, high: float | None, unit: str) -> str:
    """Return a range in words."""
    if low is None and high is None:
        return "all the way round" if unit == "°" else "without end"
    if low is None:
        return f"up to {high:.1f}{_behind(unit)}"
    if high is None:
        return f"from {low:.1f}{_behind(unit)} on"
    return f"from {low:.1f} to {high:.1f}{_behind(unit)}"


def _behind(unit: str) -> str:
    """Return a unit as it stands behind a number."""
    return unit if unit == "°" else f" {unit}"
