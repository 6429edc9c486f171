"""A rule bound to one feature: a function of scale that answers with a finding, and the scales where it turns.

Scale is a factor here, 1.0 for the drawn size; every length in a bound rule is as drawn. Between two
neighbouring turns a rule's verdict does not change: so a check at any scale, and the window of all
scales, come from the same function.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Protocol

from planner.digits import SLACK_MM
from planner.finding import Finding, Verdict
from planner.job import Override

LAST_DIGITS = 1e-9
"""At the very turn of a verdict, what a sum of lengths loses in its last digits decides nothing."""


class Rule(Protocol):
    """What every bound rule offers."""

    @property
    def rule(self) -> str:
        """Dotted name, such as ``"wall.thin"``."""

    @property
    def part(self) -> str:
        """Name of the part; empty for the whole job."""

    @property
    def feature(self) -> str:
        """What in the part it speaks of, such as ``"b2"``; counted once however many rules speak of it."""

    def at(self, s: float) -> Finding:
        """Return the finding at scale ``s``."""

    def turns(self) -> tuple[float, ...]:
        """Return every scale at which the verdict may change, in closed form."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ConstantVerdict:
    """A rule whose verdict is the same at every scale."""

    def turns(self) -> tuple[float, ...]:
        """Return nothing: the verdict never turns."""
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ConstantFinding(ConstantVerdict):
    """A finding that holds at every scale, whatever its verdict."""

    finding: Finding
    feature: str

    @property
    def rule(self) -> str:
        """Name of the rule."""
        return self.finding.rule

    @property
    def part(self) -> str:
        """Name of the part."""
        return self.finding.part

    def at(self, s: float) -> Finding:  # noqa: ARG002  the same at every scale
        """Return the finding."""
        return self.finding


def constants(findings: Iterable[Finding]) -> list[ConstantFinding]:
    """Return rules that say each finding at every scale, about the feature that it names."""
    return [ConstantFinding(finding=finding, feature=finding.feature) for finding in findings]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrapped:
    """A rule around another rule that speaks of the same feature."""

    inner: Rule

    @property
    def rule(self) -> str:
        """Name of the rule."""
        return self.inner.rule

    @property
    def part(self) -> str:
        """Name of the part."""
        return self.inner.part

    @property
    def feature(self) -> str:
        """The feature it speaks of."""
        return self.inner.feature


@dataclass(frozen=True, slots=True, kw_only=True)
class AtOwnScale(Wrapped):
    """A rule of a part with a scale of its own, whatever the job's."""

    factor: float

    def at(self, s: float) -> Finding:  # noqa: ARG002  its own scale rules
        """Return the finding at the part's own scale."""
        return self.inner.at(self.factor)

    def turns(self) -> tuple[float, ...]:
        """Return nothing: it never turns."""
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldLifted(Wrapped):
    """A rule whose holds a person has lifted, with role and reason kept in the finding."""

    override: Override

    def at(self, s: float) -> Finding:
        """Return the finding, a hold turned into go."""
        return lifted(self.inner.at(s), (self.override,))

    def turned(self, verdict: Verdict) -> Verdict:
        """Return go for a hold."""
        return Verdict.GO if verdict is Verdict.HOLD else verdict

    def turns(self) -> tuple[float, ...]:
        """Return the turns of the rule itself."""
        return self.inner.turns()


def lifted(finding: Finding, overrides: tuple[Override, ...]) -> Finding:
    """Return the finding with a hold turned into go where an override speaks of it; nothing else is lifted."""
    for override in overrides:
        if finding.verdict is Verdict.HOLD and override.rule == finding.rule and override.part in ("", finding.part):
            caution = f"Hold lifted by {override.role}: {override.reason}. {finding.caution}".strip()
            return replace(finding, verdict=Verdict.GO, caution=caution, question="")
    return finding


def at_least(measured: float, limit: float) -> bool:
    """Return whether a length reaches a limit."""
    return measured >= limit - SLACK_MM


def at_most(measured: float, limit: float) -> bool:
    """Return whether a length stays within a limit."""
    return measured <= limit + SLACK_MM


def just_reaches(limit_mm: float) -> float:
    """Return the least length that reaches a limit: where ``at_least`` turns."""
    return limit_mm - SLACK_MM + LAST_DIGITS


def just_within(limit_mm: float) -> float:
    """Return the largest length that stays within a limit: where ``at_most`` turns."""
    return limit_mm + SLACK_MM - LAST_DIGITS


def positive(*turns: float) -> tuple[float, ...]:
    """Return the turns that are scales at all."""
    return tuple(turn for turn in turns if 0.0 < turn < float("inf"))
