"""Parts with a layer height of their own: what the settings rules say of them, and the nearest height that passes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from planner.finding import Finding
from planner.job import Job, Settings
from planner.rules import Change, setting_remedy

HEIGHT = "layer_height_mm"


def own_height_of(job: Job, finding: Finding) -> float | None:
    """Return the layer height that a finding names; None where it speaks of the settings' own."""
    own = {job.own_height_mm(part.name) for part in job.parts}
    return next((each for each in own if each is not None and finding.feature.endswith(_behind(each))), None)


def parts_at(job: Job, height_mm: float) -> tuple[str, ...]:
    """Return the parts with a layer height of their own."""
    return tuple(part.name for part in job.parts if job.own_height_mm(part.name) == height_mm)


def changes_at_height(
    job: Job, height_mm: float, ask: Callable[[Job], Sequence[Finding]], finding: Finding
) -> tuple[Change, ...]:
    """Return the smallest change with which a finding about an own layer height passes; none where no change does.

    ``ask`` gives the findings of a job's settings. What the other parts say of the change is asked when it is proved.
    """
    names, suffix = parts_at(job, height_mm), _behind(height_mm)

    def judge(settings: Settings) -> list[Finding]:
        behind = _behind(settings.layer_height_mm.value)
        found = ask(_with(job, settings, names))
        return [replace(f, feature=f.feature.removesuffix(behind)) for f in found if f.feature.endswith(behind)]

    target = replace(finding, feature=finding.feature.removesuffix(suffix))
    return setting_remedy(job.settings_at(height_mm), judge, target)


def _with(job: Job, settings: Settings, names: Sequence[str]) -> Job:
    """Return the job with settings, whose layer height is that of some parts alone."""
    own = settings.layer_height_mm.value
    return replace(
        job,
        settings=replace(settings, layer_height_mm=job.settings.layer_height_mm),
        parts=tuple(replace(part, layer_height_mm=own) if part.name in names else part for part in job.parts),
    )


def _behind(height_mm: float) -> str:
    """Return what stands behind the feature of a finding about an own layer height."""
    return f", layers of {height_mm:g} mm"
