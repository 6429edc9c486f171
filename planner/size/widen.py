"""What would widen the window most: put openings back to size, another pose, printer or line width."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from planner.finding import Finding, Vec3
from planner.job import Job, Printer, Settings, kind_of
from planner.pose import toward
from planner.rules import Rule
from planner.size.window import Interval, Reach, window
from planner.survey import Survey

OPEN_LOW, OPEN_HIGH = 25.0, 400.0
"""Percents that stand for an end that nothing bounds, or beyond which nobody prints, so that widths can be compared."""
GAIN_LEAST_PERCENT = 0.1
STEPS_MOST = 6


class Bind(Protocol):
    """Binds the rules again for a changed job, or other poses; with no part ``cut`` under its load in far less time."""

    def __call__(self, job: Job, downs: Mapping[str, Vec3], *, cut: bool = True) -> Sequence[Rule]:
        """Return the rules."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Widening:
    """One thing to do, the workable interval it gives, and how many percent points wider that is.

    ``reaches`` is True where the job's own size comes to lie inside by it. ``recut`` names the openings that are put
    back to size in it, (part, feature), an empty feature for all of a part: the interval is then what the other rules
    allow, until ``proved``: then the re-bored parts have been measured and judged at its ends.
    """

    what: str
    interval: Interval
    gain_percent: float
    reaches: bool
    recut: frozenset[tuple[str, str]] = frozenset()
    proved: bool = True
    tries: Interval | None = None
    hoped: bool = False

    @property
    def told(self) -> str:
        """What to do, and for re-boring whether the interval has been proved."""
        if not self.proved:
            return f"{self.what}(not proved: the other rules allow it; fitwright window --prove tries it)"
        return f"{self.what}(proved: the re-bored parts were measured again)" if self.recut else self.what

    def proved_to(self, interval: Interval, before: Reach, percent: float) -> Widening | None:
        """Return the same thing to do with the interval that was proved for it; None where nothing is gained."""
        step = _step(self.what, interval, before, percent, self.recut)
        return None if step is None else replace(step, proved=True)


def nearest_percent(reach: Reach, percent: float) -> float | None:
    """Return the size nearest to one asked for that lies within a reach, to 0.1 % inward; None where there is none."""
    if reach.nearest is None:
        return None
    low, high = reach.nearest.low_percent, reach.nearest.high_percent
    if low is not None and percent < low:
        inside = max(math.ceil(low * 10.0 - 1e-9) / 10.0, low)  # never out of it by a last digit
        return inside if high is None or inside <= high else low
    if high is not None and percent > high:
        inside = min(math.floor(high * 10.0 + 1e-9) / 10.0, high)
        return inside if low is None or inside >= low else high
    return percent


def widenings(
    job: Job,
    rules: Sequence[Rule],
    surveys: Mapping[str, Survey],
    downs: Mapping[str, Vec3],
    percent: float,
    bind: Bind,
    printers: Sequence[Printer],
    settings: Sequence[Settings],
) -> tuple[Widening, ...]:
    """Return what would widen the workable interval, the best first; each is tried alone, by the same rules."""
    before = window(rules, percent).workable
    found: list[Widening | None] = []
    openings = frozenset((rule.part, rule.feature) for rule in rules if kind_of(rule.rule).rebore)
    if openings:
        every = frozenset((part, "") for part, _ in openings)
        what = "put every opening back to hardware size (rebore)"
        found.append(_recut(what, rules, openings, before, percent, every))
    for part, feature in _ending(before, rules):
        one = frozenset({(part, feature)})
        found.append(_recut(f"put only {feature} of {part} back to hardware size", rules, one, before, percent, one))
    tried: list[tuple[str, Job, Mapping[str, Vec3]]] = []
    for part in {cause.part for cause in _causes(before) if kind_of(cause.rule).gives == "bed"}:
        for pose in surveys[part].poses:
            if pose.down != downs[part]:
                tried.append((f"lay {part} with {toward(pose.down)} down", job, {**downs, part: pose.down}))
    for printer in printers:
        if printer.name != job.printer.name:
            tried.append((f"print on {printer.name} ({printer.about})", replace(job, printer=printer), downs))
    for other in settings:
        if other.line_width_mm.value < job.settings.line_width_mm.value:
            tried.append((f"print with {other.name}", replace(job, settings=other), downs))
    for what, changed, lying in tried:
        # Cuts only take away from what all other rules allow: where that is no gain, no part is cut.
        if _may_gain(window(bind(changed, lying, cut=False), percent).workable, before, percent):
            found.append(_tried(what, window(bind(changed, lying), percent).workable, before, percent))
    good = [step for step in found if step is not None]
    return tuple(sorted(good, key=lambda step: (not step.reaches, not step.recut, -step.gain_percent))[:STEPS_MOST])


def _recut(
    what: str,
    rules: Sequence[Rule],
    openings: frozenset[tuple[str, str]],
    before: Reach,
    percent: float,
    named: frozenset[tuple[str, str]],
) -> Widening | None:
    """Return the step of re-boring some openings: as far as all rules but those of fit allow, and where to try it."""
    fit = [rule for rule in rules if kind_of(rule.rule).rebore and (rule.part, rule.feature) in openings]
    beside = [rule for rule in rules if kind_of(rule.rule).recut and (rule.part, rule.feature) in openings]
    rest = [rule for rule in rules if rule not in fit]
    wide = _tried(what, window([r for r in rest if r not in beside], percent).workable, before, percent, named)
    if wide is None:
        return None
    step = _tried(what, window(rest, percent).workable, before, percent, named)
    return replace(step or wide, tries=wide.interval, hoped=step is None)


def _causes(reach: Reach) -> list[Finding]:
    """Return what ends the nearest interval, or what fails where there is none."""
    ends = () if reach.nearest is None else (reach.nearest.low_cause, reach.nearest.high_cause)
    return [cause for cause in (*ends, *reach.causes) if cause is not None]


def _ending(reach: Reach, rules: Sequence[Rule]) -> list[tuple[str, str]]:
    """Return part and feature of the openings that end the nearest interval."""
    ended = {(cause.rule, cause.part) for cause in _causes(reach)}
    pairs = dict.fromkeys((r.part, r.feature) for r in rules if kind_of(r.rule).rebore and (r.rule, r.part) in ended)
    return list(pairs)


def _may_gain(most: Reach, before: Reach, percent: float) -> bool:
    """Return whether any interval inside those of a reach may be a gain."""
    return any(_step("", interval, before, percent, frozenset()) is not None for interval in most.intervals)


def _tried(
    what: str, after: Reach, before: Reach, percent: float, recut: frozenset[tuple[str, str]] = frozenset()
) -> Widening | None:
    """Return a step with its gain, or None where it gains nothing."""
    return None if after.nearest is None else _step(what, after.nearest, before, percent, recut)


def _step(
    what: str, after: Interval, before: Reach, percent: float, recut: frozenset[tuple[str, str]]
) -> Widening | None:
    """Return a step with the interval it gives, or None where that is no wider and does not reach the job's size."""
    gain = _width(after) - (0.0 if before.nearest is None else _width(before.nearest))
    reaches = after.holds(percent) and not (before.nearest is not None and before.nearest.holds(percent))
    if gain < GAIN_LEAST_PERCENT and not reaches:
        return None
    return Widening(what=what, interval=after, gain_percent=gain, reaches=reaches, recut=recut, proved=not recut)


def _width(interval: Interval) -> float:
    """Return how wide an interval is, in percent points of the sizes that people print."""
    low = max(OPEN_LOW, interval.low_percent or 0.0)
    high = OPEN_HIGH if interval.high_percent is None else min(OPEN_HIGH, interval.high_percent)
    return max(high - low, 0.0)
