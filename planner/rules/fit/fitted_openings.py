"""Running gaps, cord channels and strap slots at scale, against things that keep their size."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import equal_words, percent_or_more, told_apart
from planner.finding import Finding, Vec3, Verdict, Work
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.rules.fit.strip_tight import StripTight
from planner.rules.rule import ConstantVerdict, at_least, at_most, just_reaches, positive
from planner.sourced import Sourced


def gap_caution(least_mm: Sourced) -> str:
    """Return the caution that the answer changes within what is usual for the least gap."""
    return (
        f"Anything from {least_mm.low:g} to {least_mm.high:g} mm is usual for the least gap, and the answer changes "
        "within that range."
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class GapTight:
    """``gap.tight``: a printed running gap stays open."""

    part: str
    feature: str
    gap_mm: float
    least_mm: Sourced
    calibrated: bool
    rule: str = "gap.tight"

    def at(self, s: float) -> Finding:
        """Judge the gap at a scale."""
        measured, limit = self.gap_mm * s, self.least_mm.value
        fits = at_least(measured, limit)
        decides = {at_least(measured, x) for x in (self.least_mm.low, self.least_mm.high)} != {fits}
        has, keeps = told_apart(measured, limit)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO if fits else Verdict.NO_GO,
            measured=measured,
            limit=limit,
            unit="mm",
            why=f"the running gap {self.feature} prints at {has} mm on each side; this printer keeps {keeps} mm open"
            + ("" if fits else equal_words(measured, limit)),
            remedy="" if fits else f"print the parts apart{self._enough()}",
            source=self.least_mm.source,
            caution=gap_caution(self.least_mm) if decides else "",
            question=""
            if not decides or self.calibrated
            else f"What is the least running gap that this printer keeps open? It decides {self.feature}.",
        )

    def _enough(self) -> str:
        """Return the size at which the gap stays open; nothing where there is no gap to grow."""
        if self.gap_mm <= 0.0:
            return ""
        enough = percent_or_more(100.0 * self.least_mm.value / self.gap_mm)
        return f"; at a scale of {enough} % or more, this gap by itself stays open"

    def turns(self) -> tuple[float, ...]:
        """Return where the gap just stays open."""
        return positive(just_reaches(self.least_mm.value) / self.gap_mm) if self.gap_mm > 0 else ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GapLoose(ConstantVerdict):
    """``gap.loose``: a wide gap wobbles; a note, never worse than go."""

    part: str
    feature: str
    gap_mm: float
    most_mm: Sourced
    rule: str = "gap.loose"

    def at(self, s: float) -> Finding:
        """Judge the gap at a scale."""
        measured, limit = self.gap_mm * s, self.most_mm.value
        has, most = told_apart(measured, limit)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO,
            measured=measured,
            limit=limit,
            unit="mm",
            why=f"the running gap {self.feature} prints at {has} mm on each side; up to {most} mm does not wobble",
            source=self.most_mm.source,
            caution="" if at_most(measured, limit) else "The joint will wobble.",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ChannelTight:
    """``channel.tight``: the printed channel lets the cord run, or is straight and can be reamed."""

    part: str
    feature: str
    cord: str
    channel_mm: float
    straight: bool
    at_mm: Vec3 | None
    undersize_mm: Sourced
    calibrated: bool
    cord_mm: float
    share: Sourced
    work: WorkedBore
    beside_mm: float | None
    """From the channel's axis to the end of the matter beside it, as drawn; None where nothing is beside it."""
    edge_limit_mm: float
    rule: str = "channel.tight"

    def _verdict(self, s: float, undersize_mm: float) -> Verdict:
        """Return the verdict at a scale and an undersize; a straight one is reamed if enough wall stays."""
        printed, need = self.channel_mm * s - undersize_mm, self.share.value * self.cord_mm
        if at_least(self.work.finished_mm(printed), need):
            return Verdict.GO if at_least(printed, need) else Verdict.GO_WITH_WORK
        return Verdict.GO_WITH_WORK if self.straight and self._reamable(s, need) else Verdict.NO_GO

    def _reamable(self, s: float, need_mm: float) -> bool:
        """Return whether enough wall stays beside the channel once it is reamed."""
        return self.beside_mm is None or at_least(self.beside_mm * s - need_mm / 2, self.edge_limit_mm)

    def at(self, s: float) -> Finding:
        """Judge the channel at a scale."""
        u = self.undersize_mm
        measured, limit = self.channel_mm * s - u.value, self.share.value * self.cord_mm
        verdict = self._verdict(s, u.value)
        decides = {self._verdict(s, x) for x in (u.low, u.high)} != {verdict}
        has, needs = told_apart(measured, limit)
        remedy = {
            Verdict.GO: "",
            Verdict.GO_WITH_WORK: f"{self.work.told}, as the job says"
            if at_least(self.work.finished_mm(measured), limit)
            else f"ream the channel to {limit:.2f} mm",
            Verdict.NO_GO: "take a thinner cord; at a scale of "
            f"{percent_or_more(100.0 * (limit + u.value) / self.channel_mm)} % or more, this channel by itself is wide "
            "enough",
        }[verdict]
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.cord,
            verdict=verdict,
            measured=measured,
            limit=limit,
            unit="mm",
            at_mm=self.at_mm,
            why=f"the channel of {self.cord} prints at {has} mm; {self.share.value:g} times "
            f"the cord's {self.cord_mm:g} mm is {needs} mm"
            + ("" if self.straight else "; it is curved")
            + ("" if verdict is Verdict.GO else equal_words(measured, limit)),
            remedy=remedy,
            source=f"{self.share.source}; undersize: {u.source}",
            caution="" if not decides else f"Between {u.low:g} and {u.high:g} mm undersize the answer changes.",
            question=""
            if not decides or self.calibrated
            else f"How wide does a {self.channel_mm:.1f} mm channel print "
            f"on this printer? It decides {self.cord} in {self.part}.",
            work=self._listed(measured, limit) if verdict is Verdict.GO_WITH_WORK else None,
        )

    def _listed(self, printed_mm: float, need_mm: float) -> Work:
        """Return the work as the lists read it: as the job states it, or the reaming that is needed."""
        if at_least(self.work.finished_mm(printed_mm), need_mm):
            return self.work.as_listed(printed_mm, self.cord)
        return Work(kind="ream", hardware=self.cord, to_mm=need_mm)

    def turns(self) -> tuple[float, ...]:
        """Return where the cord just runs."""
        need, u = self.share.value * self.cord_mm, self.undersize_mm.value
        turns = [(size + u) / self.channel_mm for size in (just_reaches(need), *self.work.printed_turns_mm())]
        turns += [(just_reaches(self.edge_limit_mm) + need / 2) / self.beside_mm] if self.beside_mm else []
        return positive(*turns)


@dataclass(frozen=True, slots=True, kw_only=True)
class SlotTight(StripTight):
    """``slot.tight``: the slot takes its webbing, or a narrower one of the stock."""

    strap: str
    at_mm: Vec3 | None
    rule: str = "slot.tight"

    def at(self, s: float) -> Finding:
        """Judge the slot at a scale."""
        measured, limit, verdict = self.opening_mm * s, self.needs_mm(self.strip_mm), self.verdict(s)
        has, needs = told_apart(measured, limit)
        remedy, work = "", None
        if verdict is Verdict.NO_GO:
            least = self.needs_mm(min((self.strip_mm, *self.narrower_mm)))
            enough = percent_or_more(100.0 * least / self.opening_mm)
            remedy = (
                f"cut the slot back in the mesh; at a scale of {enough} % or more, this slot by itself is long enough"
            )
        elif verdict is Verdict.GO_WITH_WORK:
            taken = self.taken_mm(s)
            remedy = f"take {taken:g} mm webbing instead of {self.strip_mm:g} mm"
            work = Work(kind="webbing", hardware=self.strap, takes=f"{taken:g} mm webbing", takes_mm=taken)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.strap,
            verdict=verdict,
            measured=measured,
            limit=limit,
            unit="mm",
            at_mm=self.at_mm,
            why=f"the slot of {self.strap} is {has} mm; {self.strip_mm:g} mm webbing needs {needs} mm"
            + ("" if verdict is Verdict.GO else equal_words(measured, limit)),
            remedy=remedy,
            source=self.clearance_mm.source,
            work=work,
        )
