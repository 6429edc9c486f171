"""What widens a window, and of re-boring so far as it is proved: parts are re-bored, measured again, and judged."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import cache, partial
from pathlib import Path

from planner.assembly import Claim, DrillReach, claims_of
from planner.cache import holds, kept, key_of
from planner.finding import Finding, Vec3
from planner.job import Job, Printer, Spool, program_stamp, read_printer, read_settings, shipped_names
from planner.plan.prepare import settings_of
from planner.plan.stages import Prepared
from planner.rebore import job_after, other_work, rebored
from planner.rules import Rule, check, rules_of, slit_rules
from planner.scale import DRAWN, Scale
from planner.size import OPEN_HIGH, OPEN_LOW, Interval, Reach, Widening, widenings, window
from planner.survey import SURVEY_VERSION, slit_of, survey, views_of

PROOF_VERSION = 7
"""Raised whenever a proof may come out otherwise."""
WIDEN_VERSION = 1
"""Raised whenever what is kept of a way to widen a window changes."""
STEP_PERCENT = 0.5
"""An end that does not hold is moved inward until it is known this well."""
PAST_PERCENT = 0.05
"""So far past a size from which on re-boring does something else it is tried; nearer ones count as one."""
PROBES_N = 4
"""Where the job's own size does not hold, so many sizes inside are tried before nothing is promised."""
ROOM = "rebore"

Fails = Callable[[float, str], tuple[Finding, ...]]
"""What fails at a percent of one part."""


def what_widens(ready: Prepared, *, prove: bool = False) -> tuple[Widening, ...]:
    """Return what would widen the window of a prepared job most, among re-boring, poses, and shipped profiles.

    ``prove`` re-bores the parts at the ends of what is promised of re-boring, measures and judges them: seconds a part.
    Without it a promise counts as proved only where that was done before, for the same job and meshes.
    """
    here = Path.cwd()
    printers = [read_printer(name, here) for name in shipped_names("printers")]
    settings = [read_settings(name, here) for name in shipped_names("settings")]
    plain, today = _undated(ready, printers)

    def bind(job: Job, downs: Mapping[str, Vec3], *, cut: bool = True) -> tuple[Rule, ...]:
        settings = settings_of(job, ready.surveys, downs)
        return (*ready.rules_for(job, downs, cut=cut), *(settings.rules if settings else ()))

    every = ready.bound.every
    # rules of the settings follow from the job, the meshes and the poses, and are long to tell
    rules = [(type(rule).__qualname__, rule.rule, rule) for rule in ready.bound.rules]
    meshes = [(name, solid.sha256) for name, solid in ready.solids.items()]
    said = ready.findings, ready.gaps_mm, ready.asked, ready.forces, ready.sizing.percent, bool(ready.screens)
    asked = key_of(program_stamp(), plain, today, printers, settings)
    key = key_of(WIDEN_VERSION, asked, meshes, sorted(ready.downs.items()), said, *rules)
    steps = kept(
        "widen",
        key,
        tuple[Widening, ...],
        lambda: widenings(plain, every, ready.surveys, ready.downs, ready.sizing.percent, bind, printers, settings),
    )
    return proved(ready, steps, anew=prove)


def _undated(ready: Prepared, others: Sequence[Printer] = ()) -> tuple[Job, date | None]:
    """Return the job with no more of dates and reels than a rule reads: a chapter is planned again and again.

    The day is read where a printer, the job's own or one of others, has a calibration that ends.
    """
    job = ready.job
    dated = any(printer.calibrated_for for printer in (job.printer, *job.more_printers, *others))
    reels = tuple(Spool(material=name) for name in sorted({spool.material for spool in job.spools}))
    return replace(job, calendar=job.calendar if dated else None, spools=reels), ready.today if dated else None


def proof_key(ready: Prepared, step: Widening) -> str:
    """Return what a proof of a step hangs on: not when a chapter's plan begins, unless a calibration ends."""
    meshes = [(name, solid.sha256) for name, solid in ready.solids.items()]
    reads = sorted(ready.downs.items()), ready.forces, ready.sizing.percent
    return key_of(PROOF_VERSION, SURVEY_VERSION, program_stamp(), *_undated(ready), meshes, reads, step)


def proved(ready: Prepared, steps: tuple[Widening, ...], *, anew: bool = True) -> tuple[Widening, ...]:
    """Return ways to widen a window, those by re-boring only as far as the re-bored parts pass when measured again.

    Unless ``anew``, nothing is tried: what was proved of the same job before is taken, the rest stays unproved, and
    what only a proof could tell is left out.
    """

    @cache
    def before() -> Reach:  # asked for only where something is proved
        return window(ready.bound.every, ready.sizing.percent).workable

    @cache
    def fails(percent: float, name: str) -> tuple[Finding, ...]:
        return _fails(ready, claims_of(ready.job, ready.surveys).claims, percent, name)

    found: list[Widening] = []
    for step in steps:
        key = proof_key(ready, step)
        if not step.recut or not (anew or holds(ROOM, key)):
            found += [] if step.hoped else [step]
            continue
        interval = kept(ROOM, key, Interval | None, partial(_proved, ready, step, fails))
        narrower = interval and step.proved_to(interval, before(), ready.sizing.percent)
        if narrower:
            found.append(narrower)
    return tuple(sorted(found, key=lambda step: (not step.reaches, -step.gain_percent)))


def _proved(ready: Prepared, step: Widening, fails: Fails) -> Interval | None:
    """Return the part of where a step may succeed that holds about the size nearest to the job's; None where none does.

    From that size each part is tried outward at every size from which on something else is done to its openings, and
    at the end: between two of them the same is done, to larger openings with more material beside them.
    """
    names = sorted({part for part, _ in step.recut})
    tries = step.tries or step.interval
    low = OPEN_LOW if tries.low_percent is None else tries.low_percent
    high = OPEN_HIGH if tries.high_percent is None else tries.high_percent
    own = min(max(ready.sizing.percent, low), high)
    probes = [own, *(low + (high - low) * (k + 1) / (PROBES_N + 1) for k in range(PROBES_N))]
    good = next((percent for percent in probes if not any(fails(percent, name) for name in names)), None)
    if good is None:
        return None
    turns = other_work(ready.job, ready.surveys, claims_of(ready.job, ready.surveys).claims, ready.downs)
    causes: dict[bool, Finding | None] = {True: tries.low_cause, False: tries.high_cause}
    ends = {True: low, False: high}
    for name in names:
        past = [Scale.of_factor(turn).percent + PAST_PERCENT for turn in turns.get(name, ())]
        for down in (True, False):
            ends[down], cause = _end(fails, name, (good, ends[down]), past)
            causes[down] = cause or causes[down]
    least, most = ends[True], ends[False]
    return Interval(
        low_percent=tries.low_percent if least == low else least,
        low_cause=causes[True],
        high_percent=tries.high_percent if most == high else most,
        high_cause=causes[False],
    )


def _end(fails: Fails, name: str, toward: tuple[float, float], past: Sequence[float]) -> tuple[float, Finding | None]:
    """Return how far from a good size toward an end a part holds at all sizes tried, and what ends it before that."""
    good, end = toward
    for percent in _stations(good, end, past):
        found = fails(percent, name)
        if not found:
            good = percent
            continue
        bad, cause = percent, found[0]
        while abs(bad - good) > STEP_PERCENT:
            middle = (good + bad) / 2.0
            found = fails(middle, name)
            if found:
                bad, cause = middle, found[0]
            else:
                good = middle
        return good, cause
    return end, None


def _stations(good: float, end: float, past: Sequence[float]) -> Iterator[float]:
    """Yield the sizes to try from a good one outward, the end last; of those that are as good as one, the first."""
    last = good
    for percent in sorted((p for p in past if min(good, end) < p < max(good, end)), reverse=end < good):
        if abs(percent - last) > PAST_PERCENT:
            last = percent
            yield percent
    yield end


def _fails(ready: Prepared, claims: Sequence[Claim], percent: float, name: str) -> tuple[Finding, ...]:
    """Return what does not pass about one part once a prepared job is re-bored at a size and measured again."""
    job, factor, downs = ready.job, Scale(percent).factor, ready.downs
    result = rebored(job, ready.solids, ready.surveys, claims, downs, factor, {name})
    if all(change.kept for change in result.changes):  # it is the drawn part at another size, which its rules know
        found = check(ready.bound, percent).findings
        return tuple(f for f in found if f.part == name and not f.verdict.passes)
    after = job_after(job, result, ready.surveys, claims, downs, factor)
    surveys = {**ready.surveys, name: survey(result.solids[name])}
    bound = rules_of(
        after,
        surveys,
        downs,
        views=views_of({name: result.solids[name]}, downs),
        today=ready.today,
        forces=ready.forces,
        reach=DrillReach({**ready.solids, **result.solids}),
        sizes=slit_rules(after, {name: slit_of(result.solids[name])}),
    )
    return tuple(f for f in check(bound, DRAWN.percent).findings if f.part == name and not f.verdict.passes)
