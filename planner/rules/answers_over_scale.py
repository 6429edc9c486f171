"""The answers of a rule over all scales: at each of its turns, and between them, where they do not change."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import chain, pairwise
from typing import Generic, Protocol, TypeVar, cast, runtime_checkable

from planner.finding import SEVERITY, Verdict
from planner.rules.questions.unanswered_rule import UnansweredRule
from planner.rules.rule import Rule

T = TypeVar("T")
U = TypeVar("U")


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps(Generic[T]):
    """``turns`` in rising order, the answer at each, and ``between`` them: one more, from 0 to without end."""

    turns: tuple[float, ...]
    at_turns: tuple[T, ...]
    between: tuple[T, ...]

    def at(self, s: float) -> T:
        """Return the answer at a scale."""
        place = bisect_left(self.turns, s)
        if place < len(self.turns) and self.turns[place] == s:
            return self.at_turns[place]
        return self.between[place]

    def turned(self, into: Callable[[T], U]) -> Steps[U]:
        """Return the same with every answer turned into another."""
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
        """Return the verdict at a scale that is a turn, or lies between two."""


_KINDS: dict[type, tuple[bool, bool]] = {}
"""By the class of a rule: whether it turns another's verdict, and whether it tells its own without words."""


def steps_of(rule: Rule) -> Steps[Verdict]:
    """Return the verdicts of a rule; each rule that a wrapped one stands on is asked at its own turns alone."""
    kind = type(rule)
    if kind not in _KINDS:  # a protocol is slow to ask: once for a class, not once for a rule
        _KINDS[kind] = isinstance(rule, Turning), isinstance(rule, Judging)
    turning, judging = _KINDS[kind]
    if turning:
        over = cast("Turning", rule)
        return steps_of(over.inner).turned(over.turned)
    if isinstance(rule, UnansweredRule):
        now = [*map(steps_of, rule.now)]
        cases = [[*map(steps_of, case.rules)] for case in rule.cases]
        turns = [turn for steps in (*now, *chain(*cases)) for turn in steps.turns]
        return sampled(turns, lambda s: rule.verdict_of(_worst(now, s), [_worst(case, s) for case in cases]))
    return sampled(rule.turns(), cast("Judging", rule).verdict if judging else lambda s: rule.at(s).verdict)


def _worst(steps: Sequence[Steps[Verdict]], s: float) -> Verdict:
    """Return the worst of several verdicts at a scale; go where there are none."""
    return max((one.at(s) for one in steps), key=SEVERITY.__getitem__, default=Verdict.GO)


def sampled(turns: Iterable[float], asked: Callable[[float], T]) -> Steps[T]:
    """Ask at every turn and once between each two; where nothing changes is no turn."""
    ordered = sorted(set(turns))
    if not ordered:
        return Steps(turns=(), at_turns=(), between=(asked(1.0),))
    found, at_turns, between = list[float](), list[T](), [asked(ordered[0] / 2)]
    for turn, after in zip(ordered, [*((a + b) / 2 for a, b in pairwise(ordered)), ordered[-1] * 2], strict=True):
        here, then = asked(turn), asked(after)
        if not here == then == between[-1]:
            found.append(turn)
            at_turns.append(here)
            between.append(then)
    return Steps(turns=tuple(found), at_turns=tuple(at_turns), between=tuple(between))
