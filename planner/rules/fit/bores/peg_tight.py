"""``peg.tight``: a printed peg in a printed bore. Both grow with the scale; what is lost in the bore does not.

A press fit that came out wide is glued; a joint that has too much play wobbles; and parts of two scales may rattle.
"""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import equal_words, hardly_apart, told_apart
from planner.finding import Evidence, Finding, Verdict
from planner.job import JointKind
from planner.rules.fit.bores.peg_play import PegPlay
from planner.rules.rule import at_least, at_most, just_reaches, just_within, positive
from planner.sourced import Sourced
from planner.survey import Bore, Peg

WHOLE_DEG = 345.0
"""A bore that goes less far round cannot be reamed."""
LEAST_TOLD_MM = 0.005
"""Less rounds to nothing, and is told as no play."""
DOES = {"turns": "turning", "slides": "sliding"}


@dataclass(frozen=True, slots=True, kw_only=True)
class PegTight:
    """The play of a peg in its bore against what the joint needs; each of the two may have a scale of its own.

    ``need_mm`` is the play on diameter that it needs, ``most_mm`` what it may have: of what turns where nobody has
    stated the joint, ``how`` None. Then too little of it is a question, never an order. ``edge_need_mm`` is what must
    stay of the wall beside the bore.
    """

    part: str
    bore: Bore
    peg_part: str
    peg: Peg
    in_place: bool
    how: JointKind | None
    need_mm: Sourced
    most_mm: Sourced
    play: PegPlay
    edge_need_mm: float
    drill_most_mm: float
    """No hand turns a wider drill or reamer."""
    scrape_mm: float
    """What sandpaper takes off a wider bore, or off a peg."""
    fast: bool = False
    """Whether several pegs hold the two parts, so that nothing turns."""
    named: bool = False
    """Whether the job says that it goes into this bore."""
    rule: str = "peg.tight"

    @property
    def feature(self) -> str:
        """The bore."""
        return self.bore.id

    def at(self, s: float) -> Finding:
        """Judge the play at a scale."""
        usual, need = self.play.at(s), self.need_mm.value
        if not at_most(usual, self.most_mm.value):
            return self._loose(s, usual)
        fits, off_mm = at_least(usual, need), self.play.undersize_mm
        decides = {at_least(self.play.at(s, off), need) for off in (off_mm.low, off_mm.high)} != {fits}
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO if fits else self._verdict(s),
            measured=usual,
            limit=need,
            unit="mm",
            at_mm=self.bore.centre_mm,
            why=self._why(s, usual, fits=fits),
            remedy="" if fits else self._remedy(s),
            source=f"{self.need_mm.source}; undersize: {off_mm.source}",
            caution="How much narrower bores print on this printer decides: print the coupon." if decides else "",
            question="" if fits or self.how else self._question(usual),
            evidence=Evidence.STATED if self.how else Evidence.GUESSED,
        )

    def _loose(self, s: float, usual: float) -> Finding:
        """Judge more play than the joint may have: glued where it is pressed, else it wobbles, or rattles."""
        most = self.most_mm.value
        has, may = told_apart(usual, most)
        told = f"{self._told(s)}: {has} mm of play"
        verdict, why, remedy, caution, question = Verdict.GO, told, "", "", ""
        if self.play.bore_factor != self.play.peg_factor:
            verdict, why = Verdict.HOLD, f"{told}, and it may have {may}: the two parts are not printed at one scale"
            remedy = "give both parts the same scale, or bush the bore"
            question = f"Does a bush fill {self.bore.id} of {self.part} about the peg of {self.peg_part}?"
        elif self.how == "pressed":
            verdict, why = Verdict.GO_WITH_WORK, f"{told}; pressed in, it holds up to {may} mm"
            remedy = 'glue it in, and say so: how = "glued" in its [[joint]]'
        elif self.how is None or self.how in DOES:
            caution = f"It wobbles: {DOES.get(self.how or '', 'turning')} runs well with up to {may} mm."
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=verdict,
            measured=usual,
            limit=most,
            unit="mm",
            at_mm=self.bore.centre_mm,
            why=why,
            remedy=remedy,
            source=f"{self.most_mm.source}; undersize: {self.play.undersize_mm.source}",
            caution=caution,
            question=question,
            evidence=Evidence.STATED if self.how else Evidence.GUESSED,
        )

    def _verdict(self, s: float) -> Verdict:
        """Return the verdict on too little play: hand work where the joint is stated and matter is left."""
        if self.how is None:
            return Verdict.HOLD
        by_hand = self.in_reach(s) and self._left_enough(s)
        return Verdict.GO_WITH_WORK if by_hand else Verdict.NO_GO

    def in_reach(self, s: float) -> bool:
        """Return whether a hand gives it the play: a reamer as wide as a chuck takes, else sandpaper."""
        return self._scraped(s) or (not self.flat and self.reamed_in_reach(s))

    def reamed_in_reach(self, s: float) -> bool:
        """Return whether a hand widens the bore so far: with a reamer as wide as a chuck takes, else sandpaper."""
        return at_most(self.ream_mm(s), self.drill_most_mm) or self._scraped(s)

    def _scraped(self, s: float) -> bool:
        """Return whether sandpaper takes off as much as is missing."""
        return at_least(self.scrape_mm, self.need_mm.value - self.play.at(s))

    def _left_enough(self, s: float) -> bool:
        """Return whether the bore, reamed for the peg, leaves the wall beside it that its part's duty needs."""
        if self.bore.edge_wall_mm is None or self.flat:
            return True  # what a reamer cannot widen is not thinned: the peg is sanded
        own = self.play.of_bore(s)
        left = own * self.bore.edge_wall_mm - (self.ream_mm(s) - own * self.bore.drawn_diameter_mm) / 2
        return at_least(left, self.edge_need_mm)

    @property
    def flat(self) -> bool:
        """Whether the bore has a flat, or is open at a side."""
        return self.bore.coverage_deg < WHOLE_DEG

    def ream_mm(self, s: float) -> float:
        """Return the bore that gives the play."""
        return self.play.peg_at(s) + self.need_mm.value

    def _told(self, s: float) -> str:
        """Say what goes in what."""
        peg, bore = f"{self.play.peg_at(s):.2f} mm", f"{self.play.printed_mm(s):.2f} mm"
        goes = "is drawn in" if self.in_place else "goes into" if self.named or self.how else "is of a size to go into"
        flat = ", less what its flat takes" if self.play.bore_mm < self.bore.diameter_mm else ""
        return f"the peg {self.peg.id} of {self.peg_part}, {peg}, {goes} {self.bore.id}, which prints at {bore}{flat}"

    def _why(self, s: float, usual: float, *, fits: bool) -> str:
        """Say what goes in what, and with how much play."""
        has, needs = told_apart(max(usual, 0.0), self.need_mm.value)
        told = self._told(s)
        if fits:
            return f"{told}: {has} mm of play"
        short = f"{has} mm of play" if usual > -LEAST_TOLD_MM else f"it is {-usual:.2f} mm too thick to go in"
        if self.need_mm.value <= 0.0:
            return f"{told}: {short}{equal_words(usual, self.need_mm.value)}"
        return f"{told}: {short}; {DOES.get(self.how or ('' if self.fast else 'turns'), 'joining')} needs {needs} mm"

    def _remedy(self, s: float) -> str:
        """Say how wide to ream the bore, under an "if" where nobody has stated the joint."""
        stop = "" if self.bore.through else ", no deeper than the bore is now"
        ream = f"ream {self.bore.id} to {self.ream_mm(s):.2f} mm{stop}, or sand the peg"
        if self.flat:
            short_mm = self.need_mm.value - self.play.at(s)
            ream = f"sand the peg {max(short_mm, 0.01):.2f} mm thinner, its flat as well"
        if self.how and hardly_apart(self.play.at(s), self.need_mm.value):
            return f"try it first; if it binds, {ream}"
        if self.how is None and self.fast:
            return (
                f"if it goes in, {ream}, and state a [[joint]] that is pressed or glued; if not, list it under [[open]]"
            )
        if self.how is None:
            return (
                f"if it turns there, {ream}, and state a [[joint]] that turns; if it stays fixed, state one that is "
                "pressed or glued; if nothing goes in, list the bore under [[open]]"
            )
        if not self.in_reach(s):
            short_mm = self.need_mm.value - self.play.at(s)
            return f"draw the peg {short_mm:.2f} mm thinner, or the bore as much wider: no hand takes so much off"
        if self._left_enough(s):
            return ream
        return "sand or draw the peg thinner, or thicken the wall round the bore in the mesh: reaming leaves too little"

    def _question(self, usual: float) -> str:
        """Ask what nobody has stated: whether it goes in, and whether it moves there."""
        if self.fast:
            return f"Do the pegs of {self.peg_part} go into {self.part}, and is it pressed or glued there?"
        if self.in_place and usual >= 0.0:
            return f"Does {self.part} turn on the peg of {self.peg_part}, or is it fixed there?"
        return f"Does the peg of {self.peg_part} go into {self.bore.id} of {self.part}, and does it turn there?"

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which the play is just enough or just nothing, and at which reaming leaves the wall."""
        need = self.need_mm.value
        found = self.play.turns(
            just_reaches(need), need, 0.0, just_within(self.most_mm.value), just_reaches(need - self.scrape_mm)
        )
        reamed = just_within(self.drill_most_mm) - need
        peg = self.play.peg_mm if self.play.peg_factor is None else 0.0
        found = (*found, *(positive(reamed / peg) if peg > 0.0 else ()))
        if self.bore.edge_wall_mm is None:
            return found
        # left = own edge - (peg + need - own bore) / 2, where own and peg are those at s
        wall_mm = self.bore.edge_wall_mm + self.bore.drawn_diameter_mm / 2
        rate, fixed_mm = 0.0, -need / 2
        for length_mm, factor in ((wall_mm, self.play.bore_factor), (-self.play.peg_mm / 2, self.play.peg_factor)):
            rate += length_mm if factor is None else 0.0
            fixed_mm += 0.0 if factor is None else length_mm * factor
        least_mm = just_reaches(self.edge_need_mm)
        return (*found, *(positive((least_mm - fixed_mm) / rate) if rate else ()))
