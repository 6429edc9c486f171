"""What a pose risks: a part that breaks between its layers, and a print that comes off the bed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from planner.finding import Vec3
from planner.job import Part, PoseWeights
from planner.pose.filled_openings import uprightness
from planner.survey import Pose, Survey, shadow_mm

FLAT_SHARE = 0.1
"""Contact below this share of the best is more and more an edge or a corner; common practice, no source."""
CHANCE_MOST = 0.95
"""No print is given up for lost: at worst one in twenty holds."""
TIPPY_DEG = 8.0
"""Below this lean a pose counts as tippy; common practice, no source."""
WARP_FREE, WARP_SPAN_MM = 0.3, 150.0
"""A material that warps less than this lifts no corners; the spread at which one that does is worst. Common practice,
no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CostTerm:
    """One term: what speaks for a pose where it is small, its cost in minutes of printing, and what that comes from."""

    for_it: str
    cost_min: float
    told: str


def strength_terms(part: Part, survey: Survey, pose: Pose, weights: PoseWeights) -> tuple[CostTerm, ...]:
    """Return the cost of loads across the layers: a narrow layer, joints above one another, a part on end."""
    loaded = part.judged_duty in ("load", "pin")
    widest = max(other.neck_mm2 for other in survey.poses)
    narrow = 1.0 - pose.neck_mm2 / widest if loaded and widest > 0 else 0.0
    upright = uprightness(_joints(survey), pose.down) if loaded else 0.0
    tall = pose.height_mm / max(survey.size_mm)
    return (
        CostTerm(
            for_it="no load crosses a narrow layer",
            cost_min=weights.neck_min.value * narrow,
            told=f"narrowest layer {pose.neck_mm2:.0f} mm²",
        ),
        CostTerm(
            for_it="the load path from joint to joint lies along the layers",
            cost_min=weights.load_across_min.value * upright,
            told=f"{100 * upright:.0f} % of the load path across the layers",
        ),
        CostTerm(
            for_it="its length lies along the layers",
            cost_min=(weights.tall_load_min if loaded else weights.tall_min).value * tall,
            told=f"{pose.height_mm:.0f} mm high",
        ),
    )


def load_term(share: float, stress_mpa: float, half_share: float, weights: PoseWeights) -> CostTerm:
    """Return the cost of a load that takes a share of the strength that a part has laid so: with its square."""
    return CostTerm(
        for_it="its load tears its layers least",
        cost_min=weights.load_min.value * (share / half_share) ** 2,
        told=f"{stress_mpa:.1f} of the {stress_mpa / share:.0f} MPa that break it laid so",
    )


def risk_term(survey: Survey, pose: Pose, print_min: float, weights: PoseWeights, warp_share: float) -> CostTerm:
    """Return the cost of prints that come off the bed, tip or lift.

    Where a print fails with the chance p, it takes p / (1 - p) failed ones to get a good one (geometric distribution).
    """
    most = max(other.contact_mm2 for other in survey.poses)
    held = pose.contact_mm2 / most if most > 0 else 1.0
    outline, _ = shadow_mm(survey.hull_mm, pose.down)
    spread_mm = float(np.ptp(outline, axis=0).max())
    chance = (
        weights.small_foot_share.value * (1.0 - held)
        + weights.edge_foot_share.value * max(1.0 - held / FLAT_SHARE, 0.0)
        + (weights.tip_share.value if pose.tip_deg < TIPPY_DEG else 0.0)
        + weights.lift_share.value * max(warp_share - WARP_FREE, 0.0) * min(spread_mm / WARP_SPAN_MM, 1.0)
    )
    chance = min(chance, CHANCE_MOST)
    lost_min = print_min + weights.hands_min.value * weights.loss_hands_min.value
    return CostTerm(
        for_it="it holds to the bed best",
        cost_min=chance / (1.0 - chance) * lost_min,
        told=f"{100 * chance:.0f} % risk of coming off the bed",
    )


def share_worth(cost_min: float, half_share: float, weights: PoseWeights) -> float:
    """Return the share of the strength that costs so many minutes: :func:`load_term` the other way round."""
    return half_share * math.sqrt(max(cost_min, 0.0) / weights.load_min.value)


def _joints(survey: Survey) -> Vec3:
    """Return the direction between the two bores farthest apart, unit vector; no direction where there are not two."""
    centres = [bore.centre_mm for bore in survey.bores if bore.step_of is None]
    pairs = [(math.dist(one, other), one, other) for one, other in combinations(centres, 2)]
    length, one, other = max(pairs, default=(0.0, (0.0, 0.0, 0.0), (0.0, 0.0, 0.0)))
    if length < 1e-9:
        return (0.0, 0.0, 0.0)
    return (other[0] - one[0]) / length, (other[1] - one[1]) / length, (other[2] - one[2]) / length
