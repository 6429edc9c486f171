"""A settings rule: what it looks at, and how it answers."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import ParamSpec, cast

from planner.digits import told_beside
from planner.finding import Evidence, Finding, Vec3, Verdict
from planner.job import Job, Material, Printer, Settings
from planner.layers import PartEstimate
from planner.scale import Scale, axis_factors
from planner.sourced import Sourced
from planner.survey import Survey

Asked = ParamSpec("Asked")
PRACTICE = "common practice, no source"
TOLD_MOST = 3
"""So many parts are named in a sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """Everything that a settings rule may look at. Estimates may be missing.

    ``shared_s`` are the seconds of every layer of a part on its plate, with all that lies there; empty where no plate
    is known, and each part is taken to be printed alone. ``mildest`` takes of layers that are not known what asks for
    least, instead of what asks for most: where both answer alike, the layers do not matter.
    """

    job: Job
    material: Material
    surveys: Mapping[str, Survey]
    estimates: Mapping[str, PartEstimate]
    downs: Mapping[str, Vec3]
    scale: Scale
    shared_s: Mapping[str, Sequence[float]] = field(default_factory=dict)
    mildest: bool = False

    @property
    def printer(self) -> Printer:
        """The printer."""
        return self.job.printer

    @property
    def settings(self) -> Settings:
        """The settings."""
        return self.job.settings

    @property
    def nozzle_c(self) -> Sourced:
        """The material's nozzle temperature with its range."""
        return _ranged(self.material.nozzle_c, self.limit("nozzle.range", "slack_c"))

    @property
    def bed_c(self) -> Sourced:
        """The material's bed temperature with its range."""
        return _ranged(self.material.bed_c, self.limit("bed.range", "slack_c"))

    @property
    def fan_percent(self) -> Sourced:
        """The material's fan with its range."""
        fan = _ranged(self.material.fan_percent, self.limit("fan.range", "slack_percent"))
        return replace(fan, low=max(fan.low, 0.0), high=min(fan.high, 100.0))

    @property
    def line_speeds(self) -> dict[str, Sourced]:
        """The speed asked for every kind of line above the first layer, by its name."""
        settings = self.settings
        return {
            "outer contour": settings.outer_contour_speed_mm_s,
            "inner contour": settings.inner_contour_speed_mm_s,
            "solid fill": settings.solid_fill_speed_mm_s,
            "infill": settings.infill_speed_mm_s,
        }

    @property
    def melts_mm3_s(self) -> float:
        """The flow that both hot end and material melt."""
        return min(self.printer.melt_rate_mm3_s.value, self.material.melt_rate_mm3_s.value)

    @property
    def surely_melts_mm3_s(self) -> float:
        """The flow that every hot end of this kind melts: the low end of both ranges."""
        return min(self.printer.melt_rate_mm3_s.low, self.material.melt_rate_mm3_s.low)

    @property
    def layers_s(self) -> Mapping[str, Sequence[float]]:
        """The seconds of every layer of each part, on its plate or alone, without any wait."""
        return self.shared_s or {name: estimate.layer_s for name, estimate in self.estimates.items()}

    def factors(self, part: str) -> tuple[float, float, float]:
        """Return by what a part's drawn lengths along x, y and z are multiplied: the job's scale, or its own."""
        own = self.job.part(part).scale_percent
        return axis_factors(self.scale.percent if own is None else own)

    def limit(self, rule: str, key: str) -> Sourced:
        """Return a number that one rule compares with, from its row in ``profiles/rules`` or the job's limits file."""
        return self.job.limits.of(rule, key)


def _ranged(number: Sourced, slack: Sourced) -> Sourced:
    """Return a number with its range; one that a profile gives without any has a usual one."""
    if number.low < number.high:
        return number
    source = f"{number.source}; range: {slack.source}"
    return replace(number, low=number.value - slack.value, high=number.value + slack.value, source=source)


SettingRule = Callable[[Case], list[Finding]]
"""Answers with a finding for everything it compared, passing or not; empty where it does not apply."""


def _kept(answer: Callable[Asked, Finding]) -> Callable[Asked, Finding]:
    """Keep what a pure function answers, and its types: most settings answer alike at every scale that is asked."""
    return cast("Callable[Asked, Finding]", lru_cache(maxsize=20_000)(answer))


@_kept
def compared(
    rule: str,
    feature: str,
    *,
    measured: float,
    low: float | None = None,
    high: float | None = None,
    unit: str,
    what: str,
    remedy: str,
    source: str,
    worse: Verdict,
    part: str = "",
    evidence: Evidence = Evidence.USUAL,
) -> Finding:
    """Return the finding of a value against a lowest and a highest one; ``worse`` where it lies outside.

    Where ``worse`` is go, the remedy becomes a caution: it wastes time or looks, and stops nothing. Limits of settings
    are usual values, so that is the evidence unless a guess is weaker.
    """
    under = low is not None and measured < low - 1e-9
    over = high is not None and measured > high + 1e-9
    outside = under or over
    sides = [end for end in (low, high) if end is not None]
    ends = " to ".join(_said(end, measured) for end in sides)
    word = "" if low is not None and high is not None else "at least " if low is not None else "at most "
    return Finding(
        rule=rule,
        part=part,
        feature=feature,
        verdict=worse if outside else Verdict.GO,
        measured=measured,
        limit=low if under or high is None else high,
        unit=unit,
        why=f"{what} is {_with_unit(_said(measured, *sides), unit)}; it should be {word}{_with_unit(ends, unit)}",
        remedy=remedy if outside and worse is not Verdict.GO else "",
        source=source,
        caution=remedy if outside and worse is Verdict.GO else "",
        evidence=evidence,
    )


def _said(number: float, *others: float) -> str:
    """Return a number so that it reads unlike others that it only comes near, and without an exponent.

    >>> _said(0.521841), _said(0.521841, 0.5218), _said(16690.2)
    ('0.5218', '0.52184', '16690')
    """
    return f"{number:.0f}" if abs(number) >= 10_000 else told_beside(number, *others)


def _with_unit(number: str, unit: str) -> str:
    """Return a number as it is read aloud, with its unit.

    >>> _with_unit("1", "layers"), _with_unit("0.5 to 1", "layers"), _with_unit("235", "C"), _with_unit("3", "")
    ('1 layer', '0.5 to 1 layers', '235 °C', '3')
    >>> _with_unit("8", "mm3/s")
    '8 mm³/s'
    """
    unit = unit.replace("mm2", "mm²").replace("mm3", "mm³")
    one = number == "1" and unit.isalpha() and len(unit) > len("mm")
    return f"{number} {unit.removesuffix('s') if one else '°C' if unit == 'C' else unit}".rstrip()
