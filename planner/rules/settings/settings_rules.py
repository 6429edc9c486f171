"""All settings rules, run in order: what stops the print, what harms a part, what wastes time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.finding import Finding, Vec3
from planner.job import Job, Material
from planner.layers import PartEstimate
from planner.rules.kinds.finding_order import by_severity
from planner.rules.settings import filling, heat_and_flow, layer_time, material_needs, nozzle_shape, on_the_bed, speeds
from planner.rules.settings import parts_at_size as parts
from planner.rules.settings import support_cost as support
from planner.rules.settings.setting_rule import Case, SettingRule
from planner.scale import Scale
from planner.survey import Survey

RULES: tuple[SettingRule, ...] = (
    *nozzle_shape.RULES,
    *heat_and_flow.RULES,
    *speeds.RULES,
    *material_needs.RULES,
    *filling.RULES,
    *layer_time.RULES,
    *on_the_bed.RULES,
    *parts.RULES,
    *support.RULES,
)
"""Every settings rule; each file lists its own at its end."""


def settings_findings(
    job: Job,
    material: Material,
    *,
    surveys: Mapping[str, Survey],
    estimates: Mapping[str, PartEstimate],
    downs: Mapping[str, Vec3],
    scale: Scale,
    shared_s: Mapping[str, Sequence[float]] | None = None,
) -> tuple[Finding, ...]:
    """Run every settings rule, worst first; parts with a layer height of their own are left to ``height_findings``.

    ``surveys``, ``estimates``, ``downs`` (the drawn direction that faces the bed) and ``shared_s`` (seconds of every
    layer on its plate) are by part name.
    """
    names = {part.name for part in job.parts if job.own_height_mm(part.name) is None}
    case = _case(job, material, surveys, estimates, downs, scale, shared_s)
    return by_severity(finding for rule in RULES for finding in rule(_of(case, names)))


def height_findings(
    job: Job,
    material: Material,
    *,
    surveys: Mapping[str, Survey],
    estimates: Mapping[str, PartEstimate],
    downs: Mapping[str, Vec3],
    scale: Scale,
    shared_s: Mapping[str, Sequence[float]] | None = None,
) -> tuple[Finding, ...]:
    """Run the rules again for every layer height that parts have of their own, on those parts alone.

    Arguments as for :func:`settings_findings`; the feature of every finding says the height.
    """
    own = {part.name: job.own_height_mm(part.name) for part in job.parts}
    found: list[Finding] = []
    for height in sorted({each for each in own.values() if each is not None}):
        at = replace(job, settings=job.settings_at(height))
        case = _case(at, material, surveys, estimates, downs, scale, shared_s)
        mine = _of(case, {name for name, each in own.items() if each == height})
        found += [
            replace(finding, feature=f"{finding.feature}, layers of {height:g} mm")
            for rule in RULES
            for finding in rule(mine)
        ]
    return by_severity(found)


def _case(
    job: Job,
    material: Material,
    surveys: Mapping[str, Survey],
    estimates: Mapping[str, PartEstimate],
    downs: Mapping[str, Vec3],
    scale: Scale,
    shared_s: Mapping[str, Sequence[float]] | None,
) -> Case:
    """Return the case that rules look at."""
    return Case(
        job=job,
        material=material,
        surveys=surveys,
        estimates=estimates,
        downs=downs,
        scale=scale,
        shared_s=shared_s or {},
    )


def _of(case: Case, names: set[str]) -> Case:
    """Return a case with some of the job's parts alone."""
    if len(names) == len(case.job.parts):
        return case
    return replace(
        case,
        job=replace(case.job, parts=tuple(part for part in case.job.parts if part.name in names)),
        surveys={name: survey for name, survey in case.surveys.items() if name in names},
        estimates={name: estimate for name, estimate in case.estimates.items() if name in names},
        shared_s={name: layers for name, layers in case.shared_s.items() if name in names},
    )
