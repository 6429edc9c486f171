"""``peg.tight``: a printed peg in a printed bore. Both grow with the scale; what is lost in the bore does not."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import told_apart
from planner.finding import Evidence, Finding, Verdict
from planner.job import JointKind
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.rules.rule import at_least, just_reaches, positive
from planner.sourced import Sourced
from planner.survey import Bore, Peg

DOES = {"turns": "turning", "slides": "sliding"}


@dataclass(frozen=True, slots=True, kw_only=True)
class PegTight:
    """The bore as it prints, after its work, less the peg as drawn, against the play that the joint needs.

    ``need_mm`` is that play on diameter: of what turns where nobody has stated the joint, ``how`` None. Then too
    little of it is a question, never an order. ``edge_mm`` is the matter beside the bore as drawn, None where there is
    none, ``edge_need_mm`` what must stay of it.
    """

    part: str
    bore: Bore
    peg_part: str
    peg: Peg
    in_place: bool
    how: JointKind | None
    need_mm: Sourced
    undersize_mm: Sourced
    edge_need_mm: float
    work: WorkedBore
    fast: bool = False
    """Whether several pegs hold the two parts, so that nothing turns."""
    rule: str = "peg.tight"

    @property
    def feature(self) -> str:
        """The bore."""
        return self.bore.id

    def play_mm(self, s: float, undersize_mm: float) -> float:
        """Return the play on diameter at a scale; below 0 the peg does not go in."""
        return self.work.finished_mm(self.bore.diameter_mm * s - undersize_mm) - self.peg.diameter_mm * s

    def at(self, s: float) -> Finding:
        """Judge the play at a scale."""
        usual, need = self.play_mm(s, self.undersize_mm.value), self.need_mm.value
        fits = at_least(usual, need)
        decides = {at_least(self.play_mm(s, off), need) for off in self._offs} != {fits}
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
            source=f"{self.need_mm.source}; undersize: {self.undersize_mm.source}",
            caution="How much narrower bores print on this printer decides: print the coupon." if decides else "",
            question="" if fits or self.how else self._question(usual),
            evidence=Evidence.STATED if self.how else Evidence.GUESSED,
        )

    @property
    def _offs(self) -> tuple[float, float]:
        """The least and the most that the printer takes off the bore."""
        return self.undersize_mm.low, self.undersize_mm.high

    def _verdict(self, s: float) -> Verdict:
        """Return the verdict on too little play: hand work where the joint is stated and matter is left."""
        if self.how is None:
            return Verdict.HOLD
        return Verdict.GO_WITH_WORK if self._left_enough(s) else Verdict.NO_GO

    def _left_enough(self, s: float) -> bool:
        """Return whether the bore, reamed for the peg, leaves the wall beside it that its part's duty needs."""
        if self.bore.edge_wall_mm is None:
            return True
        left = s * self.bore.edge_wall_mm - (self._ream_mm(s) - s * self.bore.drawn_diameter_mm) / 2
        return at_least(left, self.edge_need_mm)

    def _ream_mm(self, s: float) -> float:
        """Return the bore that gives the play."""
        return s * self.peg.diameter_mm + self.need_mm.value

    def _why(self, s: float, usual: float, *, fits: bool) -> str:
        """Say what goes in what, and with how much play."""
        peg, bore = (
            f"{s * self.peg.diameter_mm:.2f} mm",
            f"{s * self.bore.diameter_mm - self.undersize_mm.value:.2f} mm",
        )
        drawn = "drawn in" if self.in_place else "of a size to go into"
        has, needs = told_apart(usual, self.need_mm.value)
        told = f"the peg {self.peg.id} of {self.peg_part}, {peg}, is {drawn} {self.bore.id}, which prints at {bore}"
        if fits:
            return f"{told}: {has} mm of play"
        short = f"{has} mm of play" if usual > 0.0 else f"it is {-usual:.2f} mm too thick to go in"
        return f"{told}: {short}; {DOES.get(self.how or ('' if self.fast else 'turns'), 'joining')} needs {needs} mm"

    def _remedy(self, s: float) -> str:
        """Say how wide to ream the bore, under an "if" where nobody has stated the joint."""
        stop = "" if self.bore.through else ", no deeper than it is"
        ream = f"ream {self.bore.id} to {self._ream_mm(s):.2f} mm{stop}, or sand the peg"
        if self.how is None and self.fast:
            return (
                f"if it goes in, {ream}, and state a [[joint]] that is pressed or glued; if not, list it under [[open]]"
            )
        if self.how is None:
            return (
                f"if it turns there, {ream}, and state a [[joint]] that turns; if it stays fixed, state one that is "
                "pressed or glued; if nothing goes in, list the bore under [[open]]"
            )
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
        found = []
        slack_mm = self.bore.diameter_mm - self.peg.diameter_mm
        for need in (just_reaches(self.need_mm.value), 0.0):
            for off in (self.undersize_mm.value, *self._offs):
                found += [(need + off) / slack_mm] if slack_mm > 0.0 else []
                found += [(work.to_mm + off) / self.bore.diameter_mm for work in self.work.works]
            found += [(work.to_mm - need) / self.peg.diameter_mm for work in self.work.works]
        if self.bore.edge_wall_mm is not None:
            # left = s edge - (s peg + need - s bore) / 2
            rate = self.bore.edge_wall_mm - (self.peg.diameter_mm - self.bore.drawn_diameter_mm) / 2
            found += [(self.edge_need_mm + self.need_mm.value / 2) / rate] if rate > 0.0 else []
        return positive(*found)
