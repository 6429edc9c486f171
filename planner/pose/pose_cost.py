"""What a pose costs, term by term, in minutes of printing: time, plastic, work by hand, strength, and risk."""

from __future__ import annotations

from planner.job import Part, PoseWeights
from planner.layers import RoughEstimate
from planner.pose.filled_openings import UPRIGHT_COS, filled_n, lying_bores_mm
from planner.pose.layer_risks import CostTerm, risk_term, strength_terms
from planner.survey import Pose, Survey


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
            told=f"{made.support_mm3 / 1000.0:.1f} cm³ of support under {lies_cm2:.1f} cm²",
        ),
        _scars(part, pose, lies_cm2, weights),
        _openings(survey, pose, made, weights),
        _bores(survey, pose, weights),
        *strength_terms(part, survey, pose, weights),
        risk_term(survey, pose, print_min, weights, warp_share),
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
    told = which if not part.skin_side else f"{share * lies_cm2:.1f} cm² {which} on support"
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
