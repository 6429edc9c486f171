"""The verdicts of a rule over all scales: at each of its turns, and between them, where they do not change."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from planner.finding import Verdict
from planner.rules.doubt.hangs import Hangs
from planner.rules.rule import HoldLifted, Rule


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


def steps_of(rule: Rule) -> Steps:
    """Return the verdicts of a rule; each rule that a wrapped one stands on is asked at its own turns alone."""
    if isinstance(rule, HoldLifted):
        inner = steps_of(rule.inner)
        lift = {Verdict.HOLD: Verdict.GO}
        return Steps(
            turns=inner.turns,
            at_turns=tuple(lift.get(verdict, verdict) for verdict in inner.at_turns),
            between=tuple(lift.get(verdict, verdict) for verdict in inner.between),
        )
    if isinstance(rule, Hangs):
        unanswered = _worst([*map(steps_of, rule.now)])
        cases = [_worst([*map(steps_of, case.rules)]) for case in rule.cases]
        return _sampled(rule.turns(), lambda s: rule.verdict_of(unanswered(s), [case(s) for case in cases]))
    return _sampled(rule.turns(), lambda s: rule.at(s).verdict)


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
