"""``move.travel``, ``move.pull`` and ``move.return``: what a cord asks of the body, and whether it opens again."""

from __future__ import annotations

from dataclasses import dataclass, replace

from planner.digits import told_apart
from planner.finding import Finding, Verdict
from planner.mechanism.judging.curve_over_scale import Curve
from planner.mechanism.judging.move_rule import MoveRule
from planner.mechanism.movement.move_records import NO_PULL_N

TRAVEL_SOURCE = "geometry: the cord's way, taut, open less closed"
ALL_OF_IT = " over all that is free: how far it must go is not stated"
RETURN_SOURCE = "statics: moment of the elastic less friction and weight"


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveTravel(MoveRule):
    """How much cord closes the joint, against what the body's joint gives (its arm does not scale)."""

    needs_mm: Curve
    has_mm: float | None
    body: str
    """The body's joint, such as ``wrist``."""
    doubt: str = ""
    """Why its stated range may be a slip: wider than published ones; empty where it is not."""
    beside: str = ""
    """What the same joint of the body draws besides; empty where that is nothing."""
    tied_mm: float = 0.0
    """Slack as tied, which is part of what is needed; it does not grow with the device."""
    how_far: str = ""
    """The question how far the joint must go, where nobody has stated it; then nothing is refused."""
    rule: str = "move.travel"
    unit: str = "mm"
    source: str = TRAVEL_SOURCE

    def at(self, s: float) -> Finding:
        """Compare travel needed with travel there is; what the body gives unknown is a hold."""
        needs = self.needs_mm.at(s)
        slack = f", {self.tied_mm:.1f} mm of it into slack" if self.tied_mm else ""
        if self.has_mm is None:
            why = f"{self.feature} needs {needs:.1f} mm of travel{slack}; what the {self.body} gives is not known"
            ask = f"How far does the {self.body} go, in degrees, and how far is the cord from its axis, in mm?"
            return self._compared(Verdict.HOLD, needs, why, "state [drive] arm_mm and range_deg", ask)
        told, limit = told_apart(needs, self.has_mm, 1)
        verdict = Verdict.GO if needs <= self.has_mm else Verdict.NO_GO
        why = f"{self.feature} needs {told} mm of travel{slack}; this {self.body} gives {limit} mm"
        remedy = "" if verdict is Verdict.GO else "hook the cord nearer to the joint, or ask for less range"
        if remedy and self.tied_mm:
            remedy = f"tie {self.feature} with less slack, {remedy}"
        if verdict is Verdict.NO_GO and self.how_far:
            return self._compared(Verdict.HOLD, needs, f"{why}{ALL_OF_IT}", remedy, self.how_far)
        return self._compared(verdict, needs, why, remedy)

    def _compared(self, verdict: Verdict, needs: float, why: str, remedy: str, ask: str = "") -> Finding:
        """Return the finding, with the doubt about the stated range as its caution."""
        cautions = [text for text in (self.doubt, self.beside) if text]
        return replace(self.found(verdict, needs, self.has_mm, why, remedy, ask), caution="; ".join(cautions))

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which need and gift are equal."""
        return () if self.has_mm is None else self.needs_mm.crossings(self.has_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class MovePull(MoveRule):
    """The pull at the hand for the grip that is wanted, at the high end of friction, against what can be kept up."""

    low_n: Curve
    high_n: Curve
    grip_n: float
    greatest_n: float | None
    """The recipient's greatest pull, measured."""
    share: float
    beside: str = ""
    """What the same joint of the body draws besides: the pull counts it; empty where that is nothing."""
    rule: str = "move.pull"
    unit: str = "N"

    def at(self, s: float) -> Finding:
        """Compare the high end of the pull with the share of the greatest pull that a person can keep up."""
        low, high = self.low_n.at(s), self.high_n.at(s)
        if high >= NO_PULL_N:
            why = f"{self.feature}: with the most friction no pull closes it: its arm is too short against its pin"
            cure = "hook the cord farther from the joint, or a thinner pin"
            return self.found(Verdict.HOLD, None, None, why, cure)
        told = f"{self.feature}: {low:.0f} to {high:.0f} N at the hand for {self.grip_n:g} N at the tip"
        told += f" ({self.beside})" if self.beside else ""
        if self.greatest_n is None:
            need = high / self.share
            why = (
                f"{told}; nobody has measured the recipient's greatest pull; the device works only if that is "
                f"{need:.0f} N or more"
            )
            return self.found(Verdict.HOLD, high, None, why, MEASURE, _ASK)
        most = self.share * self.greatest_n
        has, allowed = told_apart(high, most, 0)
        why = (
            f"{told}; it may take {has} N. The recipient can keep up {allowed} N, {100 * self.share:g} % of the "
            f"measured {self.greatest_n:g} N"
        )
        if high <= most:
            return self.found(Verdict.GO, high, most, why)
        cure = "a lighter grip, a longer hook arm or fewer bends; ask a clinician"
        return self.found(Verdict.HOLD, high, most, why, cure)

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which the pull passes what can be kept up."""
        jams = self.high_n.crossings(NO_PULL_N)
        return jams if self.greatest_n is None else (*jams, *self.high_n.crossings(self.share * self.greatest_n))


MEASURE = "measure it with a spring balance and state [use] pull_n"
_ASK = "What is the greatest pull that the recipient can give there, in N?"


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveReturn(MoveRule):
    """Whether the elastic opens the joint again at every angle: its least moment left, in N·mm.

    ``left_n_mm`` is with the most friction, ``usual_n_mm`` as expected: where only that opens, friction decides.
    """

    elastic: str
    left_n_mm: Curve
    usual_n_mm: Curve
    shuts: str = ""
    """Where the elastic lies on the wrong side of the axis, in one sentence; empty where it does nowhere."""
    how_far: str = ""
    """The question how far the joint must go, where nobody has stated it; then nothing is refused."""
    rule: str = "move.return"
    unit: str = "N·mm"
    source: str = RETURN_SOURCE

    def at(self, s: float) -> Finding:
        """Say what is left of the elastic's moment where it is least."""
        left, usual = self.left_n_mm.at(s), self.usual_n_mm.at(s)
        told = f"{self.feature}: {self.elastic}"
        if left > 0.0:
            why = f"{told} opens it again, with {left:.1f} N·mm more than friction and weight take where that is least"
            return self.found(Verdict.GO, left, 0.0, why)
        cure = "a stronger elastic, stretched more, or farther from the joint; smoother guides"
        if self.shuts:  # a stronger one would only hold it shut harder
            told = f"{self.feature}: {self.shuts}"
            cure = f"lead {self.elastic} so that it stays on the opening side of the axis, or end the range before"
        if usual > 0.0:
            why = f"{told} opens it again with usual friction ({usual:.1f} N·mm to spare), but not with the highest"
            ask = f"Does {self.elastic} open {self.feature} again from every angle on the bench?"
            return self.found(Verdict.HOLD, left, 0.0, why, cure, ask)
        missing = f"{-usual:.1f} N·mm are missing"
        why = f"{told}, and {missing} to open it again" if self.shuts else f"{told} does not open it again: {missing}"
        if self.how_far:
            return self.found(Verdict.HOLD, left, 0.0, f"{why}{ALL_OF_IT}", cure, self.how_far)
        return self.found(Verdict.NO_GO, left, 0.0, why, cure)

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which nothing is left, with the most friction and as expected."""
        return tuple(sorted({*self.left_n_mm.crossings(0.0), *self.usual_n_mm.crossings(0.0)}))
