"""What a pose costs, term by term, in minutes of printing: time, plastic, work by hand, strength, and risk."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from planner.finding import Vec3
from planner.job import Part, PoseWeights
from planner.layers import RoughEstimate
from planner.pose.filled_openings import UPRIGHT_COS, filled_n, lying_bores_mm, uprightness
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


def pose_cost(
    part: Part, survey: Survey, pose: Pose, made: RoughEstimate, *, weights: PoseWeights, warp_share: float
) -> tuple[CostTerm, ...]:
    """Return the terms of a pose's cost, always the same ones in the same order; their sum is its cost."""
    hands, lies_cm2 = weights.hands_min.value, made.supported_mm2 / 100.0
    off_min = weights.support_off_min.value + weights.support_off_min_cm2.value * lies_cm2 if made.support_mm3 else 0.0
    print_min = weights.print_min.value * made.print_min
    return (
        CostTerm(for_it="it prints fastest", cost_min=print_min, told=f"{made.print_min:.0f} min to print"),
        CostTerm(
            for_it="it takes the least plastic",
            cost_min=weights.gram_min.value * made.plastic_g,
            told=f"{made.plastic_g:.0f} g of plastic",
        ),
        CostTerm(
            for_it="it needs the least support",
            cost_min=hands * off_min,
            told=f"{made.support_mm3 / 1000.0:.1f} cm3 of support under {lies_cm2:.1f} cm2",
        ),
        _scars(part, pose, lies_cm2, weights),
        _openings(survey, pose, made, weights),
        _bores(survey, pose, weights),
        *_strength(part, survey, pose, weights),
        _risk(survey, pose, print_min, weights, warp_share),
    )


def _scars(part: Part, pose: Pose, lies_cm2: float, weights: PoseWeights) -> CostTerm:
    """Return the cost of support on the side that lies on skin; a share of all of it where that side is not told."""
    if not part.skin_side:
        share, which = 0.0, "no skin side"
    elif part.skin_toward is None:
        share, which = weights.scar_unknown_share.value, "of the skin side (not told, so a share of all)"
    else:
        facing = sum(a * d for a, d in zip(part.skin_toward, pose.down, strict=True))
        share, which = (1.0 if facing > UPRIGHT_COS else 0.0), "of the skin side"
    told = which if not part.skin_side else f"{share * lies_cm2:.1f} cm2 {which} on support"
    cost = weights.hands_min.value * weights.scar_min_cm2.value * share * lies_cm2
    return CostTerm(for_it="its skin side stays free of support", cost_min=cost, told=told)


def _openings(survey: Survey, pose: Pose, made: RoughEstimate, weights: PoseWeights) -> CostTerm:
    """Return the cost of taking support out of slots, wide bores and channels."""
    openings, channels = filled_n(survey, pose.down) if made.support_mm3 else (0, 0)
    minutes = weights.opening_min.value * openings + weights.channel_min.value * channels
    return CostTerm(
        for_it="its openings stay free of support",
        cost_min=weights.hands_min.value * minutes,
        told=f"openings to clear of support: {openings + channels}",
    )


def _bores(survey: Survey, pose: Pose, weights: PoseWeights) -> CostTerm:
    """Return the cost of truing the bores that lie: drilled, or filed where no drill is wide enough."""
    lying = lying_bores_mm(survey, pose.down)
    wide = sum(diameter > weights.drill_most_mm.value for diameter in lying)
    drilled = len(lying) - wide
    return CostTerm(
        for_it="its bores stand upright and print round",
        cost_min=weights.hands_min.value * (weights.drill_min.value * drilled + weights.no_drill_min.value * wide),
        told=f"bores on their side: {drilled} to drill true, {wide} to file",
    )


def _strength(part: Part, survey: Survey, pose: Pose, weights: PoseWeights) -> tuple[CostTerm, ...]:
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
            told=f"narrowest layer {pose.neck_mm2:.0f} mm2",
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


def _risk(survey: Survey, pose: Pose, print_min: float, weights: PoseWeights, warp_share: float) -> CostTerm:
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


def _joints(survey: Survey) -> Vec3:
    """Return the direction between the two bores farthest apart, unit vector; no direction where there are not two."""
    centres = [bore.centre_mm for bore in survey.bores if bore.step_of is None]
    pairs = [(math.dist(one, other), one, other) for one, other in combinations(centres, 2)]
    length, one, other = max(pairs, default=(0.0, (0.0, 0.0, 0.0), (0.0, 0.0, 0.0)))
    if length < 1e-9:
        return (0.0, 0.0, 0.0)
    return (other[0] - one[0]) / length, (other[1] - one[1]) / length, (other[2] - one[2]) / length
