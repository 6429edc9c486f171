"""Which way up: the pose in which a part is printed, with the reason."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Vec3
from planner.job import Part
from planner.survey import Pose, Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class PoseChoice:
    """The pose of one part: ``down`` is the drawn direction that faces the bed, unit vector."""

    part: str
    down: Vec3
    given: bool
    reason: str
    runner_up: str


UPRIGHT_COS = 0.7071
"""A bore within 45 degrees of vertical prints as an upright one."""
ALIKE = 1e-3
"""Penalties nearer than this are the same."""
FLAT_SHARE = 0.1
"""Contact below this share of the best is an edge or a corner; common practice, no source."""
TIPPY_DEG = 8.0
"""Below this lean a pose counts as tippy; common practice, no source."""


def choose_pose(part: Part, survey: Survey) -> PoseChoice:
    """Choose the pose of one part on its survey, once, at the drawn size; a stated pose binds.

    The order is: strength along the layers, round bores, no support, grip on the bed, then height (time).
    Each pose gets a penalty for each, and the reason names the one that decided against the runner-up.
    """
    if part.pose is not None:
        return PoseChoice(part=part.name, down=part.pose, given=True, reason="stated in the job", runner_up="")
    ranked = sorted(survey.poses, key=lambda pose: (round(sum(penalties(part, survey, pose).values()), 6), pose.down))
    best, mine = ranked[0], penalties(part, survey, ranked[0])
    others = [pose for pose in ranked[1:] if not _alike(penalties(part, survey, pose), mine)]
    if not others:
        why = "the only way it stands" if len(ranked) == 1 else "all ways it stands are alike"
        return PoseChoice(part=part.name, down=best.down, given=False, reason=why, runner_up="")
    other, theirs = others[0], penalties(part, survey, others[0])
    decisive = max(mine, key=lambda what: theirs[what] - mine[what])
    return PoseChoice(
        part=part.name,
        down=best.down,
        given=False,
        reason=f"{decisive}; stands {best.height_mm:.0f} mm high on {best.contact_mm2:.0f} mm2",
        runner_up=f"next best: {toward(other.down)} down, {other.height_mm:.0f} mm high on {other.contact_mm2:.0f} mm2",
    )


def _alike(one: dict[str, float], other: dict[str, float]) -> bool:
    """Return whether two poses are the same in every point: turned over, say."""
    return all(abs(one[what] - other[what]) < ALIKE for what in one)


def penalties(part: Part, survey: Survey, pose: Pose) -> dict[str, float]:
    """Return the penalty of a pose for each point, by its name when it speaks for a pose."""
    longest = max(survey.size_mm)
    bores = [bore for bore in survey.bores if bore.drawn_diameter_mm > 0]
    lying = sum(uprightness(bore.axis, pose.down) < UPRIGHT_COS for bore in bores)
    most_contact = max(other.contact_mm2 for other in survey.poses)
    widest = max(other.neck_mm2 for other in survey.poses)
    loaded = part.judged_duty in ("load", "pin")
    return {
        "no load crosses a narrow layer": (4.0 if loaded else 0.0) * (1.0 - pose.neck_mm2 / widest)
        if widest > 0
        else 0.0,
        "its length lies along the layers": (1.5 if loaded else 0.5) * (pose.height_mm / longest),
        "its bores stand upright and print round": 1.5 * lying / len(bores) if bores else 0.0,
        "it needs the least support": 4.0 * pose.overhang_mm2 / max(survey.area_mm2, 1e-9),
        "it grips the bed best": 1.5 * (1.0 - pose.contact_mm2 / most_contact) if most_contact > 0 else 0.0,
        "it has a flat face to stand on": 2.0 if pose.contact_mm2 < FLAT_SHARE * most_contact else 0.0,
        "it does not tip": 1.0 if pose.tip_deg < TIPPY_DEG else 0.0,
    }


def uprightness(axis: Vec3, down: Vec3) -> float:
    """Return how upright an axis is in a pose, 0 to 1."""
    return abs(sum(a * d for a, d in zip(axis, down, strict=True)))


def toward(down: Vec3) -> str:
    """Name a drawn direction: ``-z``, or its components."""
    for name, value in zip("xyz", down, strict=True):
        if abs(value) > 0.999:
            return ("+" if value > 0 else "-") + name
    return "(" + ", ".join(f"{value:.2f}" for value in down) + ")"
