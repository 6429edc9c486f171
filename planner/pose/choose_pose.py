"""Which way up: the pose in which a part is printed, with the reason."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from planner.finding import Vec3
from planner.job import Bed, Part
from planner.pose.bed_room import bed_room
from planner.survey import Pose, Survey, shadow_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class PoseChoice:
    """The pose of one part: ``down`` is the drawn direction that faces the bed, unit vector."""

    part: str
    down: Vec3
    given: bool
    reason: str
    runner_up: str
    runner_up_down: Vec3 | None = None


UPRIGHT_COS = 0.7071
"""A bore within 45 degrees of vertical prints as an upright one."""
ALIKE = 1e-3
"""Penalties nearer than this are the same."""
FLAT_SHARE = 0.1
"""Contact below this share of the best is an edge or a corner; common practice, no source."""
TIPPY_DEG = 8.0
"""Below this lean a pose counts as tippy; common practice, no source."""
ROOF_MM = 13.0
"""A horizontal bore wider than this is filled with support; a narrower one's crown holds (computed by ``layers``)."""
SPAN_MM = 6.0
"""A flat roof longer than this is supported; a shorter one is bridged (see ``layers``)."""
WARP_FREE, WARP_SPAN_MM = 0.3, 150.0
"""A material that warps less than this lifts no corners; the spread at which one that does is worst. Common practice,
no source."""


def choose_pose(part: Part, survey: Survey, *, bed: Bed | None = None, warp: float = 0.0) -> PoseChoice:
    """Choose the pose of one part on its survey, once, at the drawn size; a stated pose binds.

    The order is: the bed holds it, strength along the layers, round bores, no support (least of all in openings and
    on the skin side), grip on the bed, then height (time). Each pose gets a penalty for each, and the reason names
    the one that decided against the runner-up.

    Parameters
    ----------
    bed
        Of the printer; None: any size lies on it.
    warp
        Readiness of the material to warp, 0 to 1.
    """
    if part.pose is not None:
        return PoseChoice(part=part.name, down=part.pose, given=True, reason="stated in the job", runner_up="")

    def judged(pose: Pose) -> dict[str, float]:
        return penalties(part, survey, pose, bed=bed, warp=warp)

    ranked = sorted(survey.poses, key=lambda pose: (round(sum(judged(pose).values()), 6), pose.down))
    best, mine = ranked[0], judged(ranked[0])
    others = [pose for pose in ranked[1:] if not _alike(judged(pose), mine)]
    if not others:
        why = "its only resting pose" if len(ranked) == 1 else "all its resting poses are alike"
        return PoseChoice(part=part.name, down=best.down, given=False, reason=why, runner_up="")
    other, theirs = others[0], judged(others[0])
    decisive = max(mine, key=lambda what: theirs[what] - mine[what])
    return PoseChoice(
        part=part.name,
        down=best.down,
        given=False,
        reason=f"{decisive}; stands {best.height_mm:.0f} mm high on {best.contact_mm2:.0f} mm2",
        runner_up=f"next best: {toward(other.down)} down, {other.height_mm:.0f} mm high on {other.contact_mm2:.0f} mm2",
        runner_up_down=other.down,
    )


def _alike(one: dict[str, float], other: dict[str, float]) -> bool:
    """Return whether two poses are the same in every point: turned over, say."""
    return all(abs(one[what] - other[what]) < ALIKE for what in one)


def penalties(part: Part, survey: Survey, pose: Pose, *, bed: Bed | None = None, warp: float = 0.0) -> dict[str, float]:
    """Return the penalty of a pose for each point, by its name when it speaks for a pose."""
    longest = max(survey.size_mm)
    bores = [bore for bore in survey.bores if bore.drawn_diameter_mm > 0]
    lying = sum(uprightness(bore.axis, pose.down) < UPRIGHT_COS for bore in bores)
    most_contact = max(other.contact_mm2 for other in survey.poses)
    widest = max(other.neck_mm2 for other in survey.poses)
    loaded = part.judged_duty in ("load", "pin")
    hangs = pose.overhang_mm2 / max(survey.area_mm2, 1e-9)
    lies = 1.0 if bed is None else bed_room(survey.hull_mm, pose.down, bed).most
    return {
        "it fits the bed": 100.0 if lies < 1.0 else 0.0,
        "no load crosses a narrow layer": (4.0 if loaded else 0.0) * (1.0 - pose.neck_mm2 / widest)
        if widest > 0
        else 0.0,
        "the load path from joint to joint lies along the layers": uprightness(_joints(survey), pose.down)
        if loaded
        else 0.0,
        "its length lies along the layers": (1.5 if loaded else 0.5) * (pose.height_mm / longest),
        "its bores stand upright and print round": 1.5 * lying / len(bores) if bores else 0.0,
        "its openings stay free of support": 1.5 * filled_share(survey, pose.down),
        "its skin side stays free of support": _skin(part, pose, hangs),
        "it needs the least support": 4.0 * hangs,
        "it holds to the bed best": 1.5 * (1.0 - pose.contact_mm2 / most_contact) if most_contact > 0 else 0.0,
        "it has a flat face to stand on": 2.0 if pose.contact_mm2 < FLAT_SHARE * most_contact else 0.0,
        "it does not tip": 1.0 if pose.tip_deg < TIPPY_DEG else 0.0,
        "its corners do not lift": max(warp - WARP_FREE, 0.0) * min(_spread_mm(survey, pose) / WARP_SPAN_MM, 1.0),
    }


def filled_share(survey: Survey, down: Vec3) -> float:
    """Return the share of the openings that would fill with support: wide bores that lie, slots that lie flat."""
    bores = [
        bore.drawn_diameter_mm > ROOF_MM and uprightness(bore.axis, down) < UPRIGHT_COS
        for bore in survey.bores
        if bore.drawn_diameter_mm > 0
    ]
    slots = [
        slot.length_mm > SPAN_MM
        and uprightness(slot.deep_axis, down) < UPRIGHT_COS
        and uprightness(slot.length_axis, down) < UPRIGHT_COS
        for slot in survey.slots
    ]
    return sum((*bores, *slots)) / max(len(bores) + len(slots), 1)


def _joints(survey: Survey) -> Vec3:
    """Return the direction between the two bores farthest apart, unit vector; no direction where there are not two."""
    centres = [bore.centre_mm for bore in survey.bores if bore.step_of is None]
    pairs = [(math.dist(one, other), one, other) for one, other in combinations(centres, 2)]
    length, one, other = max(pairs, default=(0.0, (0.0, 0.0, 0.0), (0.0, 0.0, 0.0)))
    if length < 1e-9:
        return (0.0, 0.0, 0.0)
    return (other[0] - one[0]) / length, (other[1] - one[1]) / length, (other[2] - one[2]) / length


def _skin(part: Part, pose: Pose, hangs: float) -> float:
    """Return the penalty of support on the side that lies on skin; any overhang counts where that side is not told."""
    if not part.skin_side:
        return 0.0
    if part.skin_toward is None:
        return 1.0 * hangs
    facing = sum(a * d for a, d in zip(part.skin_toward, pose.down, strict=True))
    return 1.5 if facing > UPRIGHT_COS else 0.0


def _spread_mm(survey: Survey, pose: Pose) -> float:
    """Return how far a part spreads over the bed."""
    outline, _ = shadow_mm(survey.hull_mm, pose.down)
    return float(np.ptp(outline, axis=0).max())


def uprightness(axis: Vec3, down: Vec3) -> float:
    """Return how upright an axis is in a pose, 0 to 1."""
    return abs(sum(a * d for a, d in zip(axis, down, strict=True)))


def toward(down: Vec3) -> str:
    """Name a drawn direction: ``-z``, or its components."""
    for name, value in zip("xyz", down, strict=True):
        if abs(value) > 0.999:
            return ("+" if value > 0 else "-") + name
    return "(" + ", ".join(f"{value:.2f}" for value in down) + ")"
