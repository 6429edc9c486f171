"""Which way up: the pose in which a part is printed, at the least cost, with the reason."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from planner.finding import Vec3
from planner.job import Bed, Material, Part, Printer, Settings, read_pose_weights
from planner.layers import rough_estimate
from planner.mesh import Solid, posed
from planner.pose.bed_room import bed_room
from planner.pose.layer_risks import CostTerm, share_worth
from planner.pose.pose_cost import pose_cost
from planner.survey import Pose, Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class PoseChoice:
    """The pose of one part: ``down`` is the drawn direction that faces the bed, unit vector.

    ``terms`` and ``runner_up_terms`` are what the pose and the next best one cost, in minutes of printing; empty for
    a stated pose.
    """

    part: str
    down: Vec3
    given: bool
    reason: str
    runner_up: str
    runner_up_down: Vec3 | None = None
    terms: tuple[CostTerm, ...] = ()
    runner_up_terms: tuple[CostTerm, ...] = ()
    by_load: bool = False
    """Whether it was chosen with what the part's own load costs in each pose."""


ALIKE_MIN = 0.5
"""Costs nearer than this, term by term, are the same; poses that are alike in all terms are one way turned over."""
WEIGHED_MOST = 12
"""So many poses are weighed, those with the most contact."""


def choose_pose(
    part: Part,
    survey: Survey,
    solid: Solid,
    *,
    settings: Settings,
    printer: Printer,
    material: Material,
    bed: Bed | None = None,
    warp: float = 0.0,
    stressed: Mapping[Vec3, CostTerm] | None = None,
) -> PoseChoice:
    """Choose the pose of one part, once, at the drawn size: what the bed holds at the least cost; a stated pose binds.

    Hours, plastic and support are estimated roughly for each pose; the rest is told by the survey. All are put
    into minutes of printing by the weights in ``profiles/pose.toml``, and the reason names the term that decided
    against the runner-up.

    Parameters
    ----------
    bed
        Of the printer; None: any size lies on it.
    warp
        Readiness of the material to warp, 0 to 1.
    stressed
        What the part's own load costs with each direction down, where that is known: see :func:`load_term`.
    """
    if part.pose is not None:
        return PoseChoice(part=part.name, down=part.pose, given=True, reason="stated in the job", runner_up="")
    fitting = [pose for pose in survey.poses if bed is None or bed_room(survey.hull_mm, pose.down, bed).most >= 1.0]
    weights, costs = read_pose_weights(), []
    for pose in (fitting or survey.poses)[:WEIGHED_MOST]:
        made = rough_estimate(posed(solid, pose.down), settings=settings, printer=printer, material=material)
        terms = pose_cost(part, survey, pose, made, weights=weights, warp_share=warp)
        costs.append((pose, (*terms, stressed[pose.down]) if stressed else terms))
    ranked = sorted(costs, key=lambda weighed: (round(_sum_min(weighed[1])), weighed[0].down))
    best, mine = ranked[0]
    others = [(pose, terms) for pose, terms in ranked[1:] if not _alike(terms, mine)]
    if not others:
        held = " that the bed holds" if 0 < len(fitting) < len(survey.poses) else ""
        why = f"its only resting pose{held}" if len(costs) == 1 else f"all its resting poses{held} are alike"
        return PoseChoice(part=part.name, down=best.down, given=False, reason=why, runner_up="", terms=mine)
    other, theirs = others[0]
    return PoseChoice(
        part=part.name,
        down=best.down,
        given=False,
        reason=_reason(best, mine, theirs),
        runner_up=f"next best: {toward(other.down)} down, {other.height_mm:.0f} mm high on {other.contact_mm2:.0f} mm²",
        runner_up_down=other.down,
        terms=mine,
        runner_up_terms=theirs,
        by_load=bool(stressed),
    )


def stressed_choice(choice: PoseChoice, stressed: Mapping[Vec3, CostTerm]) -> PoseChoice | None:
    """Return a choice with what the part's own load costs in it; None where that may lay it another way.

    Poses that cost more than the runner-up, load left out, need not be weighed again where the choice still costs less.
    """
    theirs = choice.runner_up_down
    if choice.given or theirs is None:
        return choice
    with_load = (*choice.terms, stressed[choice.down]), (*choice.runner_up_terms, stressed[theirs])
    if _sum_min(with_load[0]) > _sum_min(choice.runner_up_terms):
        return None
    return replace(choice, terms=with_load[0], runner_up_terms=with_load[1])


def share_that_turns(choice: PoseChoice, half_share: float) -> float:
    """Return the share of its strength below which a part's own load surely lays it no other way.

    What costs so much stands between the choice and the runner-up, load left out: see :func:`stressed_choice`.
    """
    if choice.given or choice.runner_up_down is None:
        return math.inf
    return share_worth(_sum_min(choice.runner_up_terms) - _sum_min(choice.terms), half_share, read_pose_weights())


def _reason(best: Pose, mine: tuple[CostTerm, ...], theirs: tuple[CostTerm, ...]) -> str:
    """Say which term decided, by how much, and which speaks most against it."""
    gains = [(other.cost_min - own.cost_min, own, other) for own, other in zip(mine, theirs, strict=True)]
    gain, own, other = max(gains, key=lambda each: each[0])
    worst, against, spared = min(gains, key=lambda each: each[0])
    price = f"; against it, {against.told} instead of {spared.told}" if worst < -ALIKE_MIN else ""
    return (
        f"{own.for_it} ({own.told} instead of {other.told}, worth {gain:.0f} min of printing){price}; "
        f"stands {best.height_mm:.0f} mm high on {best.contact_mm2:.0f} mm²"
    )


def _alike(one: tuple[CostTerm, ...], other: tuple[CostTerm, ...]) -> bool:
    """Return whether two poses cost the same in every term: turned over, say."""
    return all(abs(a.cost_min - b.cost_min) < ALIKE_MIN for a, b in zip(one, other, strict=True))


def _sum_min(terms: tuple[CostTerm, ...]) -> float:
    """Return the cost of a pose."""
    return sum(term.cost_min for term in terms)


def toward(down: Vec3) -> str:
    """Name a drawn direction: ``-z``, or its components."""
    for name, value in zip("xyz", down, strict=True):
        if abs(value) > 0.999:
            return ("+" if value > 0 else "-") + name
    return "(" + ", ".join(f"{value:.2f}" for value in down) + ")"
