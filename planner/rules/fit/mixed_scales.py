"""Parts that meet must be at one scale, and a pin that is printed must be as thick as its bores count on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from planner.assembly import Claim
from planner.finding import Finding, Verdict
from planner.job import Hardware, Job
from planner.phrases import listed
from planner.rules.rule import Rule, positive
from planner.scale import Scale
from planner.sourced import Sourced
from planner.survey import Survey, pin_shafts_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleApart:
    """``size.apart``: a hold where parts that meet are printed at different scales.

    ``own`` are the factors of the parts that have one of their own, by name; the others follow the job.
    """

    part: str
    feature: str
    own: tuple[tuple[str, float], ...]
    follows: bool
    """True where at least one of the parts follows the job's scale."""
    most_percent: Sourced
    rule: str = "size.apart"

    def at(self, s: float) -> Finding:
        """Judge how far apart the scales of the parts are."""
        factors = [factor for _, factor in self.own] + ([s] if self.follows else [])
        apart = 100.0 * (max(factors) / min(factors) - 1.0)
        fits = apart <= self.most_percent.value + 1e-9
        told = listed(f"{name} at {100 * factor:g} %" for name, factor in self.own)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO if fits else Verdict.HOLD,
            measured=apart,
            limit=self.most_percent.value,
            unit="%",
            why=f"{self.feature} joins {told}" + (f" and the rest at {100 * s:.4g} %" if self.follows else ""),
            remedy="" if fits else "print them at one scale, or say why not by an override",
            source=self.most_percent.source,
            question="" if fits else f"Are the parts of {self.feature} meant to be at different scales?",
        )

    def turns(self) -> tuple[float, ...]:
        """Return the scales between which the parts are near enough to each other."""
        if not self.follows:
            return ()
        factors = [factor for _, factor in self.own]
        near = 1.0 + self.most_percent.value / 100.0
        return positive(max(factors) / near, min(factors) * near)


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedGrows:
    """``size.apart``: a hold where a part that is printed as a pin is not as thick as its bores are judged for.

    ``thick_mm`` is its thickness as drawn, ``own_factor`` the factor of a part with a scale of its own: one without
    grows with the device, which its bores do not know.
    """

    part: str
    feature: str
    diameter_mm: float
    thick_mm: float
    most_percent: Sourced
    own_factor: float | None = None
    rule: str = "size.apart"

    def at(self, s: float) -> Finding:
        """Judge how far the pin's diameter is from the one that its bores are judged for."""
        thick_mm = self.thick_mm * (s if self.own_factor is None else self.own_factor)
        apart = 100.0 * (max(thick_mm / self.diameter_mm, self.diameter_mm / thick_mm) - 1.0)
        fits = apart <= self.most_percent.value + 1e-9
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO if fits else Verdict.HOLD,
            measured=apart,
            limit=self.most_percent.value,
            unit="%",
            why=f"{self.feature} is printed as {self.part}, which comes out {thick_mm:.2f} mm thick at "
            f"this size; its bores are judged for {self.diameter_mm:g} mm",
            remedy="" if fits else self._remedy(),
            source=self.most_percent.source,
            question="" if fits else self._question(),
        )

    def _remedy(self) -> str:
        """Say both ways: it stays as it is, or its bores grow with it; what was mistaken is put right first."""
        if not self._as_stated():
            return f"state diameter_mm = {self.thick_mm * (self.own_factor or 1.0):.4g}, as thick as it is drawn"
        return (
            f"take its [[hardware]] out and state how {self.part} joins each part in a [[joint]], turns or pressed: "
            f"its bores are judged as they grow with it then; or give {self.part} scale = 100.0, so that it keeps "
            "its size as a bought one does"
        )

    def _question(self) -> str:
        """Ask what it is meant to do, or how thick it is."""
        return f"Is {self.part} meant to grow with the device?" if self._as_stated() else f"How thick is {self.part}?"

    def _as_stated(self) -> bool:
        """Return whether it is drawn as thick as stated, so that only the scale parts them."""
        near = 1.0 + self.most_percent.value / 100.0
        return self.own_factor is None and self.diameter_mm / near <= self.thick_mm <= self.diameter_mm * near

    def turns(self) -> tuple[float, ...]:
        """Return the scales between which it is as thick as stated."""
        if self.own_factor is not None:
            return ()
        near, drawn = 1.0 + self.most_percent.value / 100.0, self.diameter_mm / self.thick_mm
        return positive(drawn / near, drawn * near)


def _thick_mm(hardware: Hardware, survey: Survey) -> float:
    """Return how thick a printed pin is drawn: its round matter nearest to what is stated, else what is stated."""
    wanted = hardware.diameter_mm
    seen = (*pin_shafts_mm(survey), *(peg.diameter_mm for peg in survey.pegs))
    return min(seen, key=lambda mm: abs(mm - wanted), default=wanted)


def scale_rules(
    job: Job, claims: Sequence[Claim], surveys: Mapping[str, Survey], printed: Collection[tuple[str, str]] = ()
) -> list[Rule]:
    """Bind the rules to running gaps, to hardware in two bores or more of several parts, and to printed pins.

    ``printed`` are the bores, by part and id, that are judged as they grow with the pin in them: one all of whose
    bores are such may grow.
    """
    kept = {c.hardware.name for c in claims if c.hardware.printed and (c.part, c.bore.id) not in printed}
    grows = {c.hardware.name for c in claims} - kept
    own = {part.name: Scale(part.scale_percent).factor for part in job.parts if isinstance(part.scale_percent, float)}
    meets: list[tuple[str, tuple[str, ...]]] = [
        (f"{gap.between[0]} to {gap.between[1]}", gap.between) for gap in job.gaps
    ]
    for hardware in job.hardware:
        bores = Counter(claim.part for claim in claims if claim.hardware is hardware)
        patterns = tuple(part for part, n in bores.items() if n > 1)
        if len(patterns) > 1:
            meets.append((hardware.name, patterns))
    grown = [
        PrintedGrows(
            part=hardware.printed,
            feature=hardware.name,
            diameter_mm=hardware.diameter_mm,
            thick_mm=_thick_mm(hardware, surveys[hardware.printed]),
            most_percent=job.limits.oval_percent,
            own_factor=own.get(hardware.printed),
        )
        for hardware in job.hardware
        if hardware.printed
        and hardware.name not in grows
        and not isinstance(job.part(hardware.printed).scale_percent, tuple)
    ]
    return grown + [
        ScaleApart(
            part=names[0],
            feature=feature,
            own=tuple((name, own[name]) for name in names if name in own),
            follows=any(name not in own for name in names),
            most_percent=job.limits.oval_percent,
        )
        for feature, names in meets
        if any(name in own for name in names)
    ]
