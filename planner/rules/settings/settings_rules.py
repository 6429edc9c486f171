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
    mildest: bool = False,
) -> tuple[Finding, ...]:
    """Run every settings rule, worst first; parts with a layer height of their own are left to ``height_findings``.

    ``surveys``, ``estimates``, ``downs`` (the drawn direction that faces the bed) and ``shared_s`` (seconds of every
    layer on its plate) are by part name. ``mildest`` is that of a case.
    """
    case = replace(
        case_of(job, material, surveys, downs, scale),
        estimates=estimates,
        shared_s=shared_s or {},
        mildest=mildest,
    )
    return by_severity(_run(case))


def height_findings(
    job: Job,
    material: Material,
    *,
    surveys: Mapping[str, Survey],
    estimates: Mapping[str, PartEstimate],
    downs: Mapping[str, Vec3],
    scale: Scale,
    shared_s: Mapping[str, Sequence[float]] | None = None,
    mildest: bool = False,
) -> tuple[Finding, ...]:
    """Run the rules again for every layer height that parts have of their own, on those parts alone.

    Arguments as for :func:`settings_findings`; the feature of every finding says the height.
    """
    own = {job.own_height_mm(part.name) for part in job.parts}
    found: list[Finding] = []
    for height in sorted(each for each in own if each is not None):
        case = case_of(job, material, surveys, downs, scale, height_mm=height)
        case = replace(case, estimates=estimates, shared_s=shared_s or {}, mildest=mildest)
        found += [replace(one, feature=f"{one.feature}, layers of {height:g} mm") for one in _run(case)]
    return by_severity(found)


def case_of(
    job: Job,
    material: Material,
    surveys: Mapping[str, Survey],
    downs: Mapping[str, Vec3],
    scale: Scale,
    height_mm: float | None = None,
) -> Case:
    """Return the case of the parts with one layer height, without layers; None for that of the settings."""
    parts = tuple(part for part in job.parts if job.own_height_mm(part.name) == height_mm)
    return Case(
        job=replace(job, settings=job.settings_at(height_mm), parts=parts),
        material=material,
        surveys={part.name: surveys[part.name] for part in parts if part.name in surveys},
        estimates={},
        downs=downs,
        scale=scale,
    )


def _run(case: Case) -> tuple[Finding, ...]:
    """Run all rules on the parts of a case."""
    names = {part.name for part in case.job.parts}
    mine = replace(
        case,
        estimates={name: estimate for name, estimate in case.estimates.items() if name in names},
        shared_s={name: layers for name, layers in case.shared_s.items() if name in names},
    )
    return tuple(finding for rule in RULES for finding in rule(mine))
