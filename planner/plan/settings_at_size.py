"""Settings at size: what the settings rules find on the real parts, and the smallest change that mends it."""

from __future__ import annotations

from dataclasses import replace

from planner.finding import Finding, Verdict, by_severity, worst
from planner.job import Job, Settings
from planner.plan.parts.at_size import at_size
from planner.plan.prepare import Progress, no_progress
from planner.plan.stages import Prepared, Sized
from planner.rules import Change, height_findings, lifted, settings_findings, smallest_change


def settings_at_size(made: Sized, job: Job) -> tuple[Finding, ...]:
    """Return the findings of a job's settings on sized parts, those of own layer heights after the others."""
    return (*_of_settings(made, job), *_of_heights(made, job))


def judged_settings(
    ready: Prepared, progress: Progress = no_progress
) -> tuple[str, tuple[Finding, ...], tuple[Change, ...], Verdict]:
    """Return the material, the findings of the settings rules on the real parts at size, and the smallest change.

    The last is the verdict that the settings get with it; parts are not laid out anew for that.
    """
    made, job = at_size(ready, progress), ready.job

    def judge(settings: Settings) -> tuple[Finding, ...]:
        found = _of_settings(made, replace(job, settings=settings))
        return by_severity(lifted(finding, job.overrides) for finding in found)

    apart = tuple(lifted(finding, job.overrides) for finding in _of_heights(made, job))
    changes, after = smallest_change(job.settings, judge)  # the settings' own height moves none of those apart
    return (
        made.material.name,
        by_severity((*judge(job.settings), *apart)),
        changes,
        max(after, worst(apart), key=lambda each: each.severity),
    )


def _of_settings(made: Sized, job: Job) -> tuple[Finding, ...]:
    """Return what the rules find on the parts that have the settings' own layer height."""
    return settings_findings(
        job,
        made.material,
        surveys=made.ready.surveys,
        estimates=made.estimates,
        downs=made.ready.downs,
        scale=made.factor,
    )


def _of_heights(made: Sized, job: Job) -> tuple[Finding, ...]:
    """Return what the rules find on the parts that have a layer height of their own."""
    return height_findings(
        job,
        made.material,
        surveys=made.ready.surveys,
        estimates=made.estimates,
        downs=made.ready.downs,
        scale=made.factor,
    )
