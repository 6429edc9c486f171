"""Rules of parts that have a scale of their own, the same along all axes or not."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from planner.digits import told_apart
from planner.finding import Finding, Vec3, Verdict
from planner.job import Job, Part
from planner.rules.fit.bed_size import BedOver
from planner.rules.fit.bores.between_tight import BetweenTight
from planner.rules.fit.bores.bore_edge import BoreEdge
from planner.rules.fit.bores.outside_done import OutsideDone
from planner.rules.fit.bores.peg_tight import PegTight
from planner.rules.fit.small_part import PartSmall
from planner.rules.fit.walls.thin_wall_rule import ThinWallRule, WallRunOut
from planner.rules.fit.walls.wall_lines import WallBetween
from planner.rules.rule import AtOwnScale, ConstantFinding, Rule
from planner.scale import Scale, axis_factors
from planner.survey import Bore, Survey


def at_own_scale(job: Job, rule: Rule, surveys: Mapping[str, Survey]) -> list[Rule]:
    """Bind a rule to its part's own scale where it has one; add the oval rule for uneven scales."""
    if not rule.part or isinstance(
        rule, ConstantFinding | PegTight | BetweenTight | OutsideDone
    ):  # a fit knows both scales
        return [rule]
    scale = job.part(rule.part).scale_percent
    if scale is None:
        return [rule]
    if isinstance(scale, float):
        return [AtOwnScale(inner=rule, factor=Scale(scale).factor)]
    bore = next((b for b in surveys[rule.part].bores if b.id == rule.feature), None)
    if bore is None:
        # these are bound to the survey at that size
        at_size = isinstance(rule, ThinWallRule | WallBetween | WallRunOut | BedOver | PartSmall)
        return [AtOwnScale(inner=rule, factor=1.0 if at_size else min(axis_factors(scale)))]
    low, high = across(bore.axis, scale)
    oval = (
        [ConstantFinding(finding=_oval(job, rule.part, bore, low, high), feature=bore.id)]
        if isinstance(rule, BoreEdge)
        else []
    )
    return [AtOwnScale(inner=rule, factor=low), *oval]


def own_factor(part: Part, axis: Vec3, *, widest: bool) -> float | None:
    """Return by what a part with a scale of its own grows across an axis, the most or the least; None without one."""
    scale = part.scale_percent
    if scale is None or isinstance(scale, float):
        return None if scale is None else Scale(scale).factor
    return across(axis, scale)[int(widest)]


def across(axis: Vec3, scale_percent: Vec3) -> tuple[float, float]:
    """Return the least and largest factor across an axis: singular values of the scale on that plane."""
    plane = np.linalg.svd(np.array(axis)[None, :])[2][1:]
    values = np.linalg.svd(np.diag(axis_factors(scale_percent)) @ plane.T, compute_uv=False)
    return float(values.min()), float(values.max())


def _oval(job: Job, part: str, bore: Bore, low: float, high: float) -> Finding:
    """Judge a bore across an uneven scale, ``bore.oval``."""
    measured, limit = 100.0 * (high / low - 1.0), job.limits.oval_percent
    return Finding(
        rule="bore.oval",
        part=part,
        feature=bore.id,
        verdict=Verdict.GO if measured <= limit.value else Verdict.NO_GO,
        measured=measured,
        limit=limit.value,
        unit="%",
        at_mm=bore.centre_mm,
        why=f"uneven scale makes {bore.id} {told_apart(measured, limit.value, 1)[0]} % longer one way than the other",
        remedy="" if measured <= limit.value else "scale evenly, or put the bore back to a round one in the mesh",
        source=limit.source,
    )
