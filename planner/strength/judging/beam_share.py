"""``strength.beam``: the share of the low strength at a part's weakest cut, over scale."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from planner.digits import told_apart
from planner.finding import Evidence, Finding, Vec3, Verdict
from planner.job import Job
from planner.phrases import numbers
from planner.rules import GoShare
from planner.scale import Scale
from planner.strength.beam.beam_pass import KNOTS
from planner.strength.held.odd_loads import ABSURD_PERCENT

SOURCE = (
    "beam formulas (textbook) on cuts of the mesh, skin and infill apart (Gibson and Ashby 1997); index: Hill 1948, "
    "Azzi and Tsai 1965"
)
HOLD_PERCENT = 100.0
NOTCH = "at a bore, a fillet or an inner corner it may take up to {0:.0f} %, which cuts do not see"
PEEL = (
    "where it is held by its face on {0} its layers may be pulled apart by up to {1:.0f} % at [{2}] mm (a beam on an "
    "elastic foundation, Hetényi 1946), which cuts do not see; up to {3} % is go"
)
HOLD_WIDER = (
    "hold it over a longer face towards the load, or by screws through it, or make it thicker there; then test "
    "it on the bench with a proof load, and watch that face"
)
ASK = "ask finite elements (--elements), which see it"
CORRECT = "correct that place, path or mesh in the job file; the part is judged then"
MEANT = "Where does the load act, and where is the part held?"
CHECK = "check load_n of [use], and mesh_unit"
PROOF = "What does a proof load on the bench do to"


def own_factor(job: Job, part: str) -> float | None:
    """Return the factor of a part that has its own scale, its least one of three; None where the job's scale rules."""
    scale = job.part(part).scale_percent
    own = min(scale) if isinstance(scale, tuple) else scale
    return None if own is None else Scale(own).factor


def share_at(squared_percent: tuple[float, ...], factor: float) -> float:
    """Return the share at a scale of shares at the knots times its square: straight between, over the square."""
    place = 1
    while place < len(KNOTS) - 1 and factor > KNOTS[place]:
        place += 1
    left, right = KNOTS[place - 1], KNOTS[place]
    low, high = squared_percent[place - 1], squared_percent[place]
    return (low + (factor - left) * ((high - low) / (right - left))) / (factor * factor)


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamShare:
    """The weakest cut of one part under one kind of load.

    Parameters
    ----------
    loads
        In words.
    asks
        What to state where nobody placed the load: the share is then the worst that nobody has ruled out, so that it
        may be a go, and ends no size. Empty where the loads are stated or follow from the mechanism.
    squared_percent
        Share of the low strength at each of the knots, times the square of the scale.
    direction
        Along or across the layers.
    method
        How it was found, in words.
    doubt
        Why finite elements that were asked settled nothing; empty where they did.
    doubt_ratio
        How many times the share it might be then: where that passes what is go, it is a hold. Heat counts
        but for loads that nobody placed: the worst of these is one extreme already.
    notch_ratio
        How many times the share notches may raise it to at most, which cuts do not see: where that passes the whole
        strength, it is a hold; the half that is go without them leaves room for less.
    peel_ratio, peel_mm, peel_over
        How many times the share a face takes that holds the part, where, and by which part: a hold where that passes
        what is go. It is an estimate of the rise to the face's edge, so that it is never a no-go.
    odd
        What cannot be meant about its loads; empty where nothing is odd. Over ten times the strength it is a hold then.
    locks
        Where a cord that grips with it passes a dead point: its loads are those of the other places, so that no share
        of theirs is go; empty where nothing does.
    untold
        Why the pins of its closed loop may press it harder than ``loads``: no share of theirs is go; else empty.
    mpa_per_percent
        Stress there, for each percent of the share.
    lies
        What another pose than the stated one would take, where that is less.
    go
        Up to which it is go; from there to the whole strength it is a hold, since what stated heat, time and repetition
        leave comes from books and not from the material.
    """

    part: str
    loads: str
    asks: str
    squared_percent: tuple[float, ...]
    at_mm: Vec3
    direction: str
    go: GoShare
    strength: str
    mpa_per_percent: float
    lies: str = ""
    method: str = "beam formulas"
    doubt: str = ""
    doubt_ratio: float = 1.0
    notch_ratio: float = 1.0
    peel_ratio: float = 0.0
    peel_mm: Vec3 = (0.0, 0.0, 0.0)
    peel_over: str = ""
    odd: str = ""
    locks: str = ""
    untold: str = ""
    own_factor: float | None = None
    rule: str = "strength.beam"
    unit: str = "%"

    @property
    def feature(self) -> str:
        """What in the part: its weakest place under loads that are known, or under the worst that may act."""
        return "weakest place under a load that nobody placed" if self.asks else "weakest place"

    def share_percent(self, s: float) -> float:
        """Return the share of the low strength at a scale."""
        return share_at(self.squared_percent, s)

    def at(self, s: float) -> Finding:
        """Judge the share at a scale."""
        factor = s if self.own_factor is None else self.own_factor
        share = self.share_percent(factor)
        told, limit = told_apart(share, self.go.percent, 0)
        place = numbers(self.at_mm)
        if share > ABSURD_PERCENT:
            return self._absurd(share)
        why = (
            f"{self.loads} takes {told} % of the low strength of a test bar printed the same way "
            f"({share * self.mpa_per_percent:.1f} MPa; {self.strength}). If it fails, it breaks {self.direction} the "
            f"layers at [{place}] mm as drawn. Method: {self.method}"
        )
        why = f"{why}; {self.doubt}" if self.doubt else why
        why = f"{why}; {self.lies}" if self.lies and share > self.go.percent else why
        proof = f"{PROOF} {self.part}{self.go.proof}?"
        if share <= self.go.percent:
            return self._up_to_go(share, why, limit, proof)
        if share <= HOLD_PERCENT:
            why = f"{why}; up to {limit} % is go{self.go.why}"
        if self.asks:
            return self._found(Verdict.HOLD, share, f"if the load acts at its worst: {why}", SAY_WHERE, self.asks)
        if share > HOLD_PERCENT:
            return self._found(Verdict.NO_GO, share, why, REMEDY)
        return self._found(Verdict.HOLD, share, why, REMEDY, proof)

    def _up_to_go(self, share: float, why: str, limit: str, proof: str) -> Finding:
        """Return what is go by its cuts: a hold where what these do not see may pass what may be."""
        if self.locks:
            return self._found(Verdict.HOLD, share, f"{why}, but {self.locks}", END_BEFORE, WHAT_STOPS)
        if self.untold:
            question = WHAT_PRESSES.format(self.part)
            return self._found(Verdict.HOLD, share, f"{why}, but {self.untold}", SAY_WHAT_DRIVES, question)
        if self.doubt and share * self.doubt_ratio > self._doubted_percent:
            return self._found(Verdict.HOLD, share, f"{why}{self.go.why}", REMEDY, proof)
        if share * self.notch_ratio > HOLD_PERCENT:
            return self._found(Verdict.HOLD, share, f"{why}; {NOTCH.format(share * self.notch_ratio)}", ASK, proof)
        if share * self.peel_ratio > self.go.percent:
            face = PEEL.format(self.peel_over, share * self.peel_ratio, numbers(self.peel_mm), limit)
            return self._found(Verdict.HOLD, share, f"{why}; {face}{self.go.why}", HOLD_WIDER, self.asks or proof)
        more = ", wherever on the part the load presses" if self.asks else ""
        return self._found(Verdict.GO, share, f"{why}; up to {limit} % is go{more}{self.go.why}")

    def _absurd(self, share: float) -> Finding:
        """Return what more than ten times the strength is: a hold where something cannot be meant, with no figure."""
        why = f"{self.loads} would take more than {ABSURD_PERCENT:,.0f} % of the low strength"
        if self.odd:
            found = self._found(Verdict.HOLD, share, f"{why}, which cannot be meant: {self.odd}", CORRECT, MEANT)
            return replace(found, measured=None, evidence=Evidence.GUESSED)
        if self.asks:
            return self._found(Verdict.HOLD, share, f"if the load acts at its worst: {why}", SAY_WHERE, self.asks)
        return self._found(Verdict.NO_GO, share, f"{why}, with its loads on its matter: {CHECK}", f"{CHECK}; {REMEDY}")

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which the share passes the limits: roots of a + b s = limit s² between knots."""
        if self.own_factor is not None:
            return ()
        found: set[float] = set()
        limits = {self.go.percent, HOLD_PERCENT, self._doubted_percent / self.doubt_ratio}
        limits.add(HOLD_PERCENT / self.notch_ratio)
        limits |= {ABSURD_PERCENT} if self.odd else set()
        limits.add(self.go.percent / max(self.peel_ratio, 1.0))
        for limit in sorted(one for one in limits if one > 0.0):
            for place, (left, right) in enumerate(pairwise(KNOTS)):
                slope = (self.squared_percent[place + 1] - self.squared_percent[place]) / (right - left)
                base = self.squared_percent[place] - slope * left
                inside = slope * slope + 4.0 * limit * base
                if inside < 0.0:
                    continue
                for sign in (-1.0, 1.0):
                    s = (slope + sign * math.sqrt(inside)) / (2.0 * limit)
                    begins, ends = place == 0 or s >= left, place == len(KNOTS) - 2 or s <= right
                    if s > 0.0 and begins and ends:
                        found.add(s)
        return tuple(sorted(found))

    @property
    def _doubted_percent(self) -> float:
        """What a doubted share may come to."""
        return 100.0 * self.go.daily_share if self.asks else self.go.percent

    def _found(self, verdict: Verdict, share: float, why: str, remedy: str = "", question: str = "") -> Finding:
        """Return the finding; a hold that hangs on where the load acts names its question."""
        guessed = bool(self.asks) and question == self.asks
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=verdict,
            measured=share,
            limit=self.go.percent,
            unit=self.unit,
            at_mm=self.at_mm,
            why=why,
            remedy=remedy,
            source=SOURCE,
            question=question,
            evidence=Evidence.GUESSED if guessed else Evidence.STATED,
            question_id=f"load-{self.part}" if guessed else "",
        )


END_BEFORE = "let a stop end the range before that (limits_deg), or keep the cord from drawing it so far"
WHAT_STOPS = "What stops it before its dead point?"
SAY_WHAT_DRIVES = (
    "state the cord that drives the loop with its path, where it grips (grip_at_mm) and how hard (grip_n); else a "
    "proof load on the bench, at the tip of the whole device"
)
WHAT_PRESSES = "What drives the loop that {0} is in, and how hard do its pins press {0} at most?"
REMEDY = (
    "lay it so that the load does not pull its layers apart; or add contours, print it larger, or put metal there; "
    "then test it on the bench with a proof load, and watch that place"
)
SAY_WHERE = f"say where the load presses it, if that is not at its worst (see the question); else {REMEDY}"
