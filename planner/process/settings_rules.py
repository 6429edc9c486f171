"""All settings rules, run in order: what stops the print, what harms a part, what wastes time."""

from __future__ import annotations

from collections.abc import Mapping

from planner.finding import Finding, Vec3, by_severity
from planner.job import Job, Material
from planner.layers import PartEstimate
from planner.process import rules_care as care
from planner.process import rules_geometry as geometry
from planner.process import rules_machine as machine
from planner.process import rules_parts as parts
from planner.process import rules_support as support
from planner.process.setting_rule import Case, SettingRule
from planner.survey import Survey

RULES: tuple[SettingRule, ...] = (
    machine.layer_height,
    machine.first_layer,
    machine.line_width,
    machine.flow,
    machine.temperatures,
    machine.speeds,
    machine.material_needs,
    geometry.contours_fill_walls,
    geometry.solid_layers,
    geometry.contours_carry,
    geometry.infill_carries,
    geometry.least_layer,
    geometry.grip,
    geometry.brim_and_spacing,
    geometry.support_needed,
    care.first_line,
    care.first_flow,
    care.heat_for_flow,
    care.speeds_in_order,
    care.soft_bed,
    care.flexible_slowly,
    care.air,
    care.support_angle,
    care.brim_width,
    parts.layers_of_part,
    parts.layers_hold_it_all,
    parts.small_bores,
    parts.warp_span,
    support.support_cost,
    support.support_inside,
    support.support_on_skin,
    support.lying_bores,
    support.bridges,
)


def settings_findings(
    job: Job,
    material: Material,
    *,
    surveys: Mapping[str, Survey],
    estimates: Mapping[str, PartEstimate],
    downs: Mapping[str, Vec3],
    scale: float,
) -> tuple[Finding, ...]:
    """Run every settings rule, worst first.

    ``surveys``, ``estimates`` and ``downs`` (the drawn direction that faces the bed) are by part name; ``scale`` is
    a factor, 1.0 for the drawn size.
    """
    case = Case(job=job, material=material, surveys=surveys, estimates=estimates, downs=downs, scale=scale)
    return by_severity(finding for rule in RULES for finding in rule(case))
