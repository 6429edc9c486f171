"""Bearings beyond their seat's diameter: a pocket as deep as they are wide, and a shaft that fits their bore."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import percent_or_more, told_apart
from planner.finding import Evidence, Finding, Vec3, Verdict
from planner.rules.rule import at_least, at_most, positive
from planner.sourced import Sourced
from planner.survey import Bore


@dataclass(frozen=True, slots=True, kw_only=True)
class BearingDeep:
    """``bearing.deep``: the pocket holds a bearing over its width, or over a share that keeps it from tipping."""

    part: str
    feature: str
    bearing: str
    deep_mm: float
    width_mm: float
    at_mm: Vec3
    least_share: Sourced
    rule: str = "bearing.deep"

    def at(self, s: float) -> Finding:
        """Judge the pocket at a scale."""
        measured, least = self.deep_mm * s, self.width_mm * self.least_share.value
        whole, held = at_least(measured, self.width_mm), at_least(measured, least)
        has, needs = told_apart(measured, self.width_mm if held else least)
        why = f"the pocket {self.feature} is {has} mm deep; {self.bearing} is {self.width_mm:g} mm wide"
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO if held else Verdict.HOLD,
            measured=measured,
            limit=least,
            unit="mm",
            at_mm=self.at_mm,
            why=why if held else f"{why}: it tips unless {needs} mm of it are held",
            remedy=""
            if held
            else f"print at {percent_or_more(100.0 * least / self.deep_mm)} % or more, deepen the pocket in the mesh, "
            "or say that a cover holds the bearing",
            source=self.least_share.source,
            caution=f"{self.bearing} stands out by {self.width_mm - measured:.1f} mm: leave room for it."
            if held and not whole
            else "",
            question="" if held else f"Does another part hold {self.bearing} in {self.part}?",
        )

    def turns(self) -> tuple[float, ...]:
        """Return where the pocket holds enough of it, and where it holds all of it."""
        return positive(self.least_share.value * self.width_mm / self.deep_mm, self.width_mm / self.deep_mm)


def shaft_finding(
    *, part: str, feature: str, bearing: str, bore_mm: float, shaft: str, shaft_mm: float, play_mm: Sourced
) -> Finding:
    """Judge a bearing's bore with what goes through it, ``bearing.shaft``: both are bought, and neither scales."""
    enters = at_most(shaft_mm, bore_mm)
    fits = enters and at_least(shaft_mm, bore_mm - play_mm.value)
    verdict = Verdict.GO if fits else Verdict.HOLD if enters else Verdict.NO_GO
    has, needs = told_apart(shaft_mm, bore_mm)
    why = f"{shaft} of {has} mm goes through {bearing}, whose bore is {needs} mm"
    return Finding(
        rule="bearing.shaft",
        part=part,
        feature=feature,
        verdict=verdict,
        measured=shaft_mm,
        limit=bore_mm,
        unit="mm",
        why=why if fits else f"{why}: it does not go in" if not enters else f"{why}: it rattles",
        remedy="" if fits else "take a bearing with the bore of its shaft, or the other way round",
        source=play_mm.source,
        evidence=Evidence.STATED,
        question="" if fits or not enters else f"Does a sleeve fill the bore of {bearing} on {shaft}?",
    )


def unknown_shaft(part: str, seat: Bore, bearing: str, bore_mm: float, play_mm: Sourced) -> Finding:
    """Ask what goes through a bearing, ``bearing.shaft``: no screw or pin is named, and no round peg has its size."""
    return Finding(
        rule="bearing.shaft",
        part=part,
        feature=seat.id,
        verdict=Verdict.HOLD,
        limit=bore_mm,
        unit="mm",
        at_mm=seat.centre_mm,
        why=f"nothing is known to go through {bearing}: no screw or pin of {bore_mm:g} mm is named, and no round peg "
        "of another part has that size or is drawn there, so its bore is compared with nothing",
        remedy="name the screw or pin as [[hardware]], or draw the shaft round and as thick as the bore",
        source=play_mm.source,
        evidence=Evidence.STATED,
        question=f"What goes through {bearing} in {part}, bought or printed, and how thick is it?",
    )
