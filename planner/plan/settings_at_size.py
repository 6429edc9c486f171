"""Settings at size: what the settings rules find on the real parts, and the smallest change that mends it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.finding import Finding, Verdict, worst
from planner.job import Job, Settings
from planner.layers import PartEstimate
from planner.packing import Plate
from planner.plan.judged_per_printer import per_printer
from planner.plan.parts.at_size import at_size
from planner.plan.parts.estimates import Estimates
from planner.plan.prepare import Progress, no_progress
from planner.plan.stages import Prepared, Sized
from planner.rules import Change, by_severity, height_findings, lifted, settings_findings, smallest_change
from planner.scale import Scale


def settings_on_plates(made: Sized, job: Job, plates: Sequence[Plate]) -> tuple[Finding, ...]:
    """Return the findings of a job's settings on sized parts, those of own layer heights after the others.

    Rules that ask a printer are asked of those that run the plates.
    """
    known = Estimates(job, made.material, made.parts)

    def there(other: Job) -> tuple[Finding, ...]:
        estimates = known.on(other.printer.name)
        return (*_of_settings(made, other, estimates), *_of_heights(made, other, estimates))

    return per_printer(job, there(job), plates, there)


def judged_settings(
    ready: Prepared, progress: Progress = no_progress
) -> tuple[str, tuple[Finding, ...], tuple[Change, ...], Verdict]:
    """Return the material, the findings of the settings rules on the real parts at size, and the smallest change.

    The last is the verdict that the settings get with it; parts are not laid out anew for that.
    """
    made, job = at_size(ready, progress), ready.job

    def judge(settings: Settings) -> tuple[Finding, ...]:
        found = _of_settings(made, replace(job, settings=settings), made.estimates)
        return by_severity(lifted(finding, job.overrides) for finding in found)

    apart = tuple(lifted(finding, job.overrides) for finding in _of_heights(made, job, made.estimates))
    changes, after = smallest_change(job.settings, judge)  # the settings' own height moves none of those apart
    return (
        made.material.name,
        by_severity((*judge(job.settings), *apart)),
        changes,
        max(after, worst(apart), key=lambda each: each.severity),
    )


def _of_settings(made: Sized, job: Job, estimates: Mapping[str, PartEstimate]) -> tuple[Finding, ...]:
    """Return what the rules find on the parts that have the settings' own layer height."""
    return settings_findings(
        job,
        made.material,
        surveys=made.ready.surveys,
        estimates=estimates,
        downs=made.ready.downs,
        scale=Scale(made.percent),
    )


def _of_heights(made: Sized, job: Job, estimates: Mapping[str, PartEstimate]) -> tuple[Finding, ...]:
    """Return what the rules find on the parts that have a layer height of their own."""
    return height_findings(
        job,
        made.material,
        surveys=made.ready.surveys,
        estimates=estimates,
        downs=made.ready.downs,
        scale=Scale(made.percent),
    )
