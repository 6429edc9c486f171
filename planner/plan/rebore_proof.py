"""What re-boring widens, proved: the parts are re-bored at a size, measured again, and judged."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from planner.assembly import claims_of
from planner.cache import kept, key_of
from planner.finding import Finding
from planner.plan.stages import Prepared
from planner.rebore import job_after, rebored
from planner.rules import check, rules_of
from planner.scale import DRAWN, Scale
from planner.size import OPEN_HIGH, OPEN_LOW, Interval, Widening, window
from planner.survey import SURVEY_VERSION, layer_view, survey

PROOF_VERSION = 2
"""Raised whenever a proof may come out otherwise."""
STEP_PERCENT = 0.5
"""An end that does not hold is moved inward until it is known this well."""
PROBES_N = 4
"""Where the job's own size does not hold, so many sizes inside are tried before nothing is promised."""

Fails = Callable[..., tuple[Finding, ...]]
"""What fails at a percent, of all parts or of some named ones."""


def proved(ready: Prepared, steps: tuple[Widening, ...]) -> tuple[Widening, ...]:
    """Return ways to widen a window, those by re-boring only as far as the re-bored parts pass when measured again."""
    before = window(ready.bound.every, ready.sizing.percent).workable
    found: list[Widening] = []
    for step in steps:
        if not step.recut:
            found.append(step)
            continue
        key = key_of(PROOF_VERSION, SURVEY_VERSION, ready.job, [s.sha256 for s in ready.solids.values()], step)
        interval = kept("rebore", key, partial(_proved, ready, step))
        narrower = interval and step.proved_to(interval, before, ready.sizing.percent)
        if narrower:
            found.append(narrower)
    return tuple(sorted(found, key=lambda step: (not step.reaches, -step.gain_percent)))


def _proved(ready: Prepared, step: Widening) -> Interval | None:
    """Return the part of a step's interval that holds about the size nearest to the job's; None where none does."""
    names = frozenset(part for part, _ in step.recut)

    def fails(percent: float, some: frozenset[str] = names) -> tuple[Finding, ...]:
        return rebored_findings(ready, percent, some)

    low = OPEN_LOW if step.interval.low_percent is None else step.interval.low_percent
    high = OPEN_HIGH if step.interval.high_percent is None else step.interval.high_percent
    own = min(max(ready.sizing.percent, low), high)
    probes = [own, *(low + (high - low) * (k + 1) / (PROBES_N + 1) for k in range(PROBES_N))]
    good = next((percent for percent in probes if not fails(percent)), None)
    if good is None:
        return None
    least, low_cause = _end(fails, good, low)
    most, high_cause = _end(fails, good, high)
    return replace(
        step.interval,
        low_percent=step.interval.low_percent if low_cause is None else least,
        low_cause=low_cause or step.interval.low_cause,
        high_percent=step.interval.high_percent if high_cause is None else most,
        high_cause=high_cause or step.interval.high_cause,
    )


def _end(fails: Fails, good: float, end: float) -> tuple[float, Finding | None]:
    """Return how far from a good size toward an end the sizes tried hold, and what ends that before the end.

    Parts that hold at the end are not asked again between.
    """
    found = fails(end)
    if not found:
        return end, None
    some, cause, bad = frozenset(finding.part for finding in found), found[0], end
    while abs(bad - good) > STEP_PERCENT:
        middle = (good + bad) / 2.0
        found = fails(middle, some)
        if found:
            bad, cause = middle, found[0]
        else:
            good = middle
    return good, cause


def rebored_findings(ready: Prepared, percent: float, names: frozenset[str]) -> tuple[Finding, ...]:
    """Return what does not pass about some parts once a prepared job is re-bored at a size and measured again."""
    job, factor, downs = ready.job, Scale(percent).factor, ready.downs
    claims = claims_of(job, ready.surveys).claims
    result = rebored(job, ready.solids, ready.surveys, claims, downs, factor)
    after = job_after(job, result, ready.surveys, claims, downs, factor)
    surveys = {name: survey(result.solids[name]) if name in names else ready.surveys[name] for name in result.solids}
    views = {name: layer_view(result.solids[name], downs[name]) for name in names}
    bound = rules_of(after, surveys, downs, views=views, today=ready.today)
    return tuple(f for f in check(bound, DRAWN.percent).findings if f.part in names and not f.verdict.passes)
