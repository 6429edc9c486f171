"""The verdicts of a rule over all scales: at each of its turns, and between them, where they do not change."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol, runtime_checkable

from planner.finding import Verdict
from planner.rules.doubt.hangs import Hangs
from planner.rules.rule import Rule


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """``turns`` in rising order, the verdict at each, and ``between`` them: one more, from 0 to without end."""

    turns: tuple[float, ...]
    at_turns: tuple[Verdict, ...]
    between: tuple[Verdict, ...]

    def at(self, s: float) -> Verdict:
        """Return the verdict at a scale."""
        place = bisect_left(self.turns, s)
        if place < len(self.turns) and self.turns[place] == s:
            return self.at_turns[place]
        return self.between[place]

    def turned(self, into: Callable[[Verdict], Verdict]) -> Steps:
        """Return the same with every verdict turned into another."""
        return Steps(
            turns=self.turns,
            at_turns=tuple(into(verdict) for verdict in self.at_turns),
            between=tuple(into(verdict) for verdict in self.between),
        )


@runtime_checkable
class Turning(Protocol):
    """A rule that only turns the verdicts of another into others, at the same scales."""

    @property
    def inner(self) -> Rule:
        """The other rule."""

    def turned(self, verdict: Verdict) -> Verdict:
        """Return what a verdict of the other rule becomes."""


@runtime_checkable
class Judging(Protocol):
    """A rule that can tell its verdict without the words of a finding, which take most of the time."""

    def verdict(self, s: float) -> Verdict:
        """Return the verdict at a scale."""


def steps_of(rule: Rule) -> Steps:
    """Return the verdicts of a rule; each rule that a wrapped one stands on is asked at its own turns alone."""
    if isinstance(rule, Turning):
        return steps_of(rule.inner).turned(rule.turned)
    if isinstance(rule, Hangs):
        unanswered = _worst([*map(steps_of, rule.now)])
        cases = [_worst([*map(steps_of, case.rules)]) for case in rule.cases]
        return _sampled(rule.turns(), lambda s: rule.verdict_of(unanswered(s), [case(s) for case in cases]))
    return _sampled(rule.turns(), rule.verdict if isinstance(rule, Judging) else lambda s: rule.at(s).verdict)


def _worst(steps: Sequence[Steps]) -> Callable[[float], Verdict]:
    """Return the worst of several verdicts at a scale; go where there are none."""
    return lambda s: max((one.at(s) for one in steps), key=lambda verdict: verdict.severity, default=Verdict.GO)


def _sampled(turns: Sequence[float], verdict: Callable[[float], Verdict]) -> Steps:
    """Ask for the verdict at every turn and once between each two."""
    ordered = tuple(sorted(set(turns)))
    if not ordered:
        return Steps(turns=(), at_turns=(), between=(verdict(1.0),))
    middles = [ordered[0] / 2, *((a + b) / 2 for a, b in pairwise(ordered)), ordered[-1] * 2]
    return Steps(
        turns=ordered,
        at_turns=tuple(verdict(turn) for turn in ordered),
        between=tuple(verdict(middle) for middle in middles),
    )
