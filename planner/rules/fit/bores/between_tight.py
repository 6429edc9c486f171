"""``between.tight``: a part between two faces of another, as a tenon, a tongue, a dovetail or a lever in a fork is."""

from __future__ import annotations

from dataclasses import dataclass

from planner.assembly import between_id, between_question
from planner.digits import told_apart
from planner.finding import Evidence, Finding, Vec3, Verdict
from planner.job import JointKind
from planner.rules.fit.bores.peg_play import PegPlay
from planner.rules.rule import at_least, at_most, just_reaches, just_within
from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class BetweenTight:
    """The room between the faces as it prints, less the part as drawn, against what the joint needs.

    ``play`` counts the room as a bore and the part as a peg. Where nobody has stated the joint, ``how`` None, too
    little room is a question; stated, up to ``file_mm`` are filed.
    """

    part: str
    outer: str
    feature: str
    at_mm: Vec3
    how: JointKind | None
    need_mm: Sourced
    most_mm: Sourced
    """What it may have where the two parts are not printed at one scale; else it has what it was drawn with."""
    file_mm: Sourced
    play: PegPlay
    curved: bool = False
    """Whether the faces are curved, as those of balls and threads are."""
    rule: str = "between.tight"

    def at(self, s: float) -> Finding:
        """Judge the room at a scale."""
        room, need, off_mm = self.play.at(s), self.need_mm.value, self.play.undersize_mm
        verdict = self._verdict(s, off_mm.value)
        fits = verdict is Verdict.GO
        decides = any(self._verdict(s, off) is not verdict for off in (off_mm.low, off_mm.high))
        has, needs = told_apart(room, need)
        told = f"{self.part} is {self.play.peg_at(s):.2f} mm wide where it lies between {self._faces} of {self.outer}, "
        told += f"which print {self.play.printed_mm(s):.2f} mm apart"
        short = f"{has} mm of room; it needs {needs} mm" if room > 0.0 else f"it is {-room:.2f} mm too wide to go in"
        if not fits and self._rattles(room):
            short = f"{room:.2f} mm of room: the two parts are not printed at one scale, and it rattles"
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=verdict,
            measured=room,
            limit=need,
            unit="mm",
            at_mm=self.at_mm,
            why=f"{told}: {has} mm of room" if fits else f"{told}: {short}",
            remedy="" if fits else self._remedy(verdict, need - room),
            source=f"{self.need_mm.source}; undersize, as of bores: {off_mm.source}",
            caution="How much narrower openings print on this printer decides: print the coupon." if decides else "",
            question="" if fits or (self.how and verdict is not Verdict.HOLD) else self._question(),
            question_id="" if fits or self.how or self._mixed else between_id(self.part, self.outer),
            evidence=Evidence.STATED if self.how else Evidence.GUESSED,
        )

    def _verdict(self, s: float, off_mm: float) -> Verdict:
        """Return the verdict for so much that the printer takes off the room."""
        room, need = self.play.at(s, off_mm), self.need_mm.value
        if self._rattles(room):
            return Verdict.HOLD
        if at_least(room, need):
            return Verdict.GO
        if self.how is None:
            return Verdict.HOLD
        if self.by_drawing:
            return Verdict.NO_GO
        return Verdict.GO_WITH_WORK if at_least(room, need - self.file_mm.value) else Verdict.NO_GO

    @property
    def _faces(self) -> str:
        """What it lies between."""
        return "curved faces" if self.curved else "faces"

    @property
    def by_drawing(self) -> bool:
        """Whether only another drawing gives it room: no hand sands a thread or a ball that is to move true."""
        return self.curved and self.how in ("turns", "slides")

    @property
    def _mixed(self) -> bool:
        """Whether the two parts are not printed at one scale."""
        return self.play.bore_factor != self.play.peg_factor

    def _rattles(self, room_mm: float) -> bool:
        """Return whether parts of two scales leave more room than the joint may have."""
        return self._mixed and not at_most(room_mm, self.most_mm.value)

    def _remedy(self, verdict: Verdict, short_mm: float) -> str:
        """Say how much to file off, under an "if" where nobody has stated the joint."""
        if short_mm < 0.0:
            return "give both parts the same scale"
        if verdict is Verdict.NO_GO:
            return f"draw {self.part} {short_mm:.2f} mm thinner there, or the room in {self.outer} as much wider"
        how = "sand" if self.curved else "file"
        ream = f"{how} {max(short_mm, 0.01):.2f} mm off {self.part} there, half on either side"
        if self.curved and self.how is None:
            ream = f"draw it {max(short_mm, 0.01):.2f} mm thinner there"
        if self.how:
            return ream
        return (
            f"if it moves there, {ream}, and state a [[joint]] that slides or turns; if it stays fixed, {how} it "
            "until it goes in, and state one that is pressed, glued or snapped; if both print in place, state "
            "their [[gap]]"
        )

    def _question(self) -> str:
        """Ask what nobody has stated."""
        if self._mixed:
            return f"Is {self.part} to keep another scale than {self.outer}?"
        return between_question(self.part, self.outer)

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which the room is just enough, and at which filing just does."""
        need = self.need_mm.value
        return self.play.turns(
            just_reaches(need), just_reaches(need - self.file_mm.value), just_within(self.most_mm.value)
        )
