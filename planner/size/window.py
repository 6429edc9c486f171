"""Which sizes work: the intervals of scale in which every rule passes, each end with its cause."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from planner.finding import Evidence, Finding, Verdict
from planner.job import kind_of
from planner.rules import Rule, Steps, steps_of
from planner.scale import Scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """One interval of scale in percent; an end that nothing bounds is None."""

    low_percent: float | None
    high_percent: float | None
    low_cause: Finding | None
    high_cause: Finding | None

    def holds(self, percent: float) -> bool:
        """Return whether a size lies inside, its ends included."""
        low, high = self.low_percent, self.high_percent
        return (low is None or low <= percent + 1e-9) and (high is None or percent <= high + 1e-9)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """All intervals in which a condition holds, smallest first.

    ``nearest`` holds the job's scale or lies nearest to it; None where no size passes, and then
    ``causes`` names what fails at the job's scale, worst first. Where only holds stand against it, it is not known
    yet: ``until`` names them, and ``if_answered`` are the intervals once they are lifted.
    """

    nearest: Interval | None
    intervals: tuple[Interval, ...]
    causes: tuple[Finding, ...]
    until: tuple[Finding, ...] = ()
    if_answered: tuple[Interval, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Two things told apart: where the device works, and where it fits the person. ``part`` empty: the whole job.

    Parameters
    ----------
    go, workable
        Where the device works: every rule about it gives go, or passes.
    person
        Where every rule about the person's measures passes; None where nothing was measured.
    passes
        Where both are met: there a check exits with 0.
    """

    part: str
    go: Reach
    workable: Reach
    person: Reach | None
    passes: Reach


@dataclass(frozen=True, slots=True, kw_only=True)
class _Span:
    """A closed interval of scale factors and the rules that end it; None where nothing does."""

    low: float
    high: float
    low_rule: Rule | None
    high_rule: Rule | None


Stepped = tuple[Rule, Steps[Verdict]]
OUTSIDE = (5e-3, 1e-7)
"""How far beyond an end a cause is asked for, as shares of the scale: where the numbers differ visibly, if it
still fails there for the same reason, else just outside."""


def window(rules: Sequence[Rule], scale_percent: float, part: str = "") -> Window:
    """Return the sizes that work, solved from the rules' own turns.

    A rule's verdict is constant between two neighbouring turns, so each rule is asked once at every turn
    and once between; the passing spans of all rules are then intersected. No search, no tolerance.
    """
    stepped = [(rule, steps_of(rule)) for rule in rules]
    device = [pair for pair in stepped if not kind_of(pair[0].rule).of_person]
    person = [pair for pair in stepped if kind_of(pair[0].rule).of_person]
    workable = _reach(device, scale_percent, _passes)
    return Window(
        part=part,
        go=_reach(device, scale_percent, lambda verdict: verdict is Verdict.GO),
        workable=workable,
        person=_reach(person, scale_percent, _passes) if person else None,
        passes=_reach(stepped, scale_percent, _passes) if person else workable,
    )


def _passes(verdict: Verdict) -> bool:
    """Return whether a check exits with 0 by a verdict."""
    return verdict.passes


def _passes_or_holds(verdict: Verdict) -> bool:
    """Return whether nothing is wrong by a verdict, though something may not be known."""
    return verdict is not Verdict.NO_GO


def part_window(rules: Sequence[Rule], scale_percent: float, part: str) -> Window:
    """Return the window of one part alone."""
    return window([rule for rule in rules if rule.part == part], scale_percent, part)


def feature_windows(rules: Sequence[Rule], scale_percent: float) -> list[tuple[str, Window]]:
    """Return the window of every feature that ends anywhere, by its name; that which ends nearest comes first."""
    features: dict[tuple[str, str], list[Rule]] = {}
    for rule in rules:
        features.setdefault((rule.part, rule.feature), []).append(rule)
    found = [(feature, window(mine, scale_percent, part)) for (part, feature), mine in features.items()]
    ended = [(feature, one) for feature, one in found if _bounded(one.go) or _bounded(one.workable)]
    return sorted(ended, key=lambda pair: _slack(pair[1].workable, scale_percent))


def _slack(reach: Reach, percent: float) -> float:
    """Return how many percent points lie between a size and the nearest end; negative outside."""
    if reach.nearest is None:
        return -percent
    low, high = reach.nearest.low_percent, reach.nearest.high_percent
    return min(float("inf") if low is None else percent - low, float("inf") if high is None else high - percent)


def _bounded(reach: Reach) -> bool:
    """Return whether anything ends a reach."""
    return [(i.low_percent, i.high_percent) for i in reach.intervals] != [(None, None)]


def _reach(rules: Sequence[Stepped], scale_percent: float, passes: Callable[[Verdict], bool]) -> Reach:
    """Intersect the passing spans of all rules; where none is left, those that nothing but holds stand against."""
    spans, s = _met_all(rules, passes), Scale(scale_percent).factor
    intervals = tuple(_interval(span, passes) for span in spans)
    nearest = min(range(len(spans)), key=lambda i: max(spans[i].low - s, s - spans[i].high, 0.0), default=None)
    if nearest is not None:
        return Reach(nearest=intervals[nearest], intervals=intervals, causes=())
    here = [rule.at(s) for rule, _ in rules]
    causes = tuple(finding for finding in sorted(here, key=_ends_first) if not passes(finding.verdict))
    open_spans = _met_all(rules, lambda verdict: passes(verdict) or verdict is Verdict.HOLD)
    there = [rule.at(_nearest(open_spans, s)) for rule, _ in rules] if open_spans else []
    return Reach(
        nearest=None,
        intervals=(),
        causes=causes,
        until=tuple(finding for finding in there if finding.verdict is Verdict.HOLD),
        if_answered=tuple(_interval(span, _passes_or_holds) for span in open_spans),
    )


def _nearest(spans: Sequence[_Span], s: float) -> float:
    """Return the scale inside a span that is nearest to one; of a span beside it, a little inside its end."""

    def inside(span: _Span) -> float:
        if span.low <= s <= span.high:
            return s
        step = OUTSIDE[1] * s
        return min(span.low + step, span.high) if s < span.low else max(span.high - step, span.low)

    return min((inside(span) for span in spans), key=lambda at: abs(at - s))


def _ends_first(finding: Finding) -> tuple[bool, bool]:
    """Order what ends a size before what is not known, and what is measured or stated before what is guessed."""
    return finding.verdict is not Verdict.NO_GO, finding.evidence is Evidence.GUESSED


def _met_all(rules: Sequence[Stepped], passes: Callable[[Verdict], bool]) -> list[_Span]:
    """Return the spans in which all rules pass."""
    spans = [_Span(low=0.0, high=float("inf"), low_rule=None, high_rule=None)]
    for rule, steps in rules:
        spans = _met(spans, _spans(rule, steps, passes))
    # Two spans may touch in a point where one of them has just ended: it counts only if every rule passes there.
    return [
        span for span in spans if span.low < span.high or all(passes(rule.at(span.low).verdict) for rule, _ in rules)
    ]


def _spans(rule: Rule, steps: Steps[Verdict], passes: Callable[[Verdict], bool]) -> list[_Span]:
    """Return the spans in which one rule passes."""
    ends = [0.0, *steps.turns, float("inf")]
    found: list[_Span] = []
    for index, verdict in enumerate(steps.between):
        if passes(verdict):
            low, high = ends[index], ends[index + 1]
            if found and found[-1].high == low:
                low = found.pop().low
            found.append(_end_rules(low, high, rule))
        elif index < len(steps.turns) and passes(steps.at_turns[index]) and not passes(steps.between[index + 1]):
            found.append(_end_rules(steps.turns[index], steps.turns[index], rule))
    return found


def _end_rules(low: float, high: float, rule: Rule) -> _Span:
    """Return a span ended by one rule wherever it ends at all."""
    return _Span(
        low=low, high=high, low_rule=rule if low > 0.0 else None, high_rule=rule if high < float("inf") else None
    )


def _met(one: list[_Span], other: list[_Span]) -> list[_Span]:
    """Intersect two sorted lists of spans."""
    found, i, j = [], 0, 0
    while i < len(one) and j < len(other):
        a, b = one[i], other[j]
        low, high = max(a, b, key=lambda span: span.low), min(a, b, key=lambda span: span.high)
        if low.low <= high.high:
            found.append(_Span(low=low.low, high=high.high, low_rule=low.low_rule, high_rule=high.high_rule))
        if a.high <= b.high:
            i += 1
        else:
            j += 1
    return found


def _interval(span: _Span, passes: Callable[[Verdict], bool]) -> Interval:
    """Return the span in percent, each end with the finding just outside it."""
    low_cause = _outside(span.low_rule, span.low, -1.0, passes) if span.low_rule else None
    high_cause = _outside(span.high_rule, span.high, 1.0, passes) if span.high_rule else None
    return Interval(
        low_percent=Scale.of_factor(span.low).percent if span.low_rule else None,
        high_percent=Scale.of_factor(span.high).percent if span.high_rule else None,
        low_cause=low_cause,
        high_cause=high_cause,
    )


def _outside(rule: Rule, end: float, way: float, passes: Callable[[Verdict], bool]) -> Finding | None:
    """Return the finding just outside an end."""
    for share in OUTSIDE:
        finding = rule.at(end * (1.0 + way * share))
        if not passes(finding.verdict):
            return finding
    return None
