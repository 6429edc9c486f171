"""Bind every rule of a job to the features it speaks of: once, before any scale is tried."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from planner.assembly import claims_of, mating_findings
from planner.finding import Finding, Guess, Vec3, Verdict
from planner.job import Job, Part, fit_printers
from planner.rules.bind.bind_bores import LOADED, bore_rules
from planner.rules.bind.bind_channels import channel_rules
from planner.rules.bind.bind_openings import gap_rules, seat_rules, slot_rules
from planner.rules.fit.bed_size import bed_over_any
from planner.rules.fit.cord_force import cord_force
from planner.rules.fit.joint_strength import joint_rules
from planner.rules.fit.mesh_rules import mesh_findings
from planner.rules.fit.mesh_units import in_doubt
from planner.rules.fit.mixed_scales import scale_rules
from planner.rules.fit.small_part import PartSmall, largest_small
from planner.rules.fit.strength_ratio import StrengthRatio
from planner.rules.fit.wall_thickness import WallBetween, WallThin, WallUnlaid
from planner.rules.rule import Fixed, Lifted, Rule, Said
from planner.survey import Bore, LayerView, Survey

ABOUT_MESHES = ("mesh.", "size.mixed")
"""Rules about the files themselves, which are judged in any unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """All rules of a job, and what had to be guessed to bind them."""

    rules: tuple[Rule, ...]
    guesses: tuple[Guess, ...]


def rules_of(
    job: Job,
    surveys: Mapping[str, Survey],
    downs: Mapping[str, Vec3],
    *,
    findings: Sequence[Finding] = (),
    gaps_mm: Mapping[tuple[str, str], float | None] | None = None,
    uneven: Mapping[str, Survey] | None = None,
    views: Mapping[str, LayerView | None] | None = None,
) -> Bound:
    """Bind every rule to every feature.

    Parameters
    ----------
    surveys, downs
        By part name, at drawn size: the survey, and the drawn direction that faces the bed.
    findings
        What was found before, such as that measures disagree; it holds at every scale.
    gaps_mm
        Gaps measured between meshes: for those that the job does not state, and those that can be compared.
    uneven
        Surveys, at size, of the parts that are scaled unevenly.
    views
        What a line can lay of each part in its pose.
    """
    claims = claims_of(job, surveys)
    mating = mating_findings(job, claims.claims)
    gone_through = frozenset((claim.part, claim.bore.id) for claim in claims.claims) | claims.asked
    seats = seat_rules(job, surveys, downs, gone_through)
    taken = gone_through | seats.bores
    channels = channel_rules(job, surveys, downs, taken)
    slots, gaps = slot_rules(job, surveys), gap_rules(job, gaps_mm or {})
    rules: list[Rule] = [*seats.rules, *channels.rules, *slots.rules, *gaps.rules]
    for part in job.parts:
        mine = tuple(claim for claim in claims.claims if claim.part == part.name)
        spoken = {bore for name, bore in seats.bores | channels.bores | claims.asked if name == part.name}
        rules += bore_rules(job, part, surveys[part.name], mine, downs[part.name], spoken)
        rules += _part_rules(job, part, (uneven or {}).get(part.name, surveys[part.name]), downs[part.name])
        rules += _layer_rules(job, part, (views or {}).get(part.name))
        rules += joint_rules(job, part, surveys[part.name], mine, downs[part.name])
        rules += _listed_slots(part, surveys[part.name], {i for name, i in slots.slots if name == part.name})
    rules += [
        Said(finding=f, feature=f.feature) for f in (*claims.missing, *mating, *mesh_findings(job, surveys), *findings)
    ]
    rules += [Said(finding=f, feature=f.feature) for f in (cord_force(cord, job.use, job.limits) for cord in job.cords)]
    rules = _judgeable(job, rules, in_doubt(job, surveys))
    scaled = [scaled_rule for rule in rules for scaled_rule in _at_own_scale(job, rule, surveys)]
    scaled += scale_rules(job, claims.claims)
    guesses = (
        *job.notes,
        *claims.guesses,
        *seats.guesses,
        *channels.guesses,
        *slots.guesses,
        *gaps.guesses,
        *_duties(job),
    )
    return Bound(rules=tuple(_lifted(job, rule) for rule in scaled), guesses=guesses)


def _judgeable(job: Job, rules: list[Rule], doubted: frozenset[str]) -> list[Rule]:
    """Return the rules that do not hang on a unit that is open: those about the files, and those of other parts."""
    gaps = {f"{one} to {other}" for one, other in (gap.between for gap in job.gaps) if doubted & {one, other}}
    return [
        rule
        for rule in rules
        if rule.rule.startswith(ABOUT_MESHES) or (rule.part not in doubted and rule.feature not in gaps)
    ]


def _part_rules(job: Job, part: Part, survey: Survey, down: Vec3) -> list[Rule]:
    """Return the rules that every part has: wall, bed, and by its duty and its user, strength and smallness."""
    w, limits = job.settings.line_width_mm.value, job.limits
    rules: list[Rule] = [
        bed_over_any(part.name, survey.hull_mm, down, tuple(pose.down for pose in survey.poses), fit_printers(job))
    ]
    wall = survey.walls.least_clear
    if wall is not None:
        loaded = part.judged_duty in LOADED
        rules.append(
            WallThin(
                part=part.name,
                duty=part.judged_duty,
                duty_stated=part.duty is not None,
                thickness_mm=wall.thickness_mm,
                at_mm=wall.at_mm,
                line_width_mm=w,
                lines=limits.wall_load_lines if loaded else limits.wall_plain_lines,
                plain_lines=limits.wall_plain_lines,
            )
        )
        rules.append(
            WallBetween(
                part=part.name, thickness_mm=wall.thickness_mm, at_mm=wall.at_mm, line_width_mm=w, limits=limits
            )
        )
    if part.judged_duty in LOADED:
        rules.append(StrengthRatio(part=part.name, most=limits.strength_ratio))
    age = job.use.recipient_age_years
    if job.use.mouthing or (age is not None and age < limits.small_age_years.value):
        rules.append(PartSmall(part=part.name, most=largest_small(survey.hull_mm)))
    return rules


def _layer_rules(job: Job, part: Part, view: LayerView | None) -> list[Rule]:
    """Return the rule of what a line cannot lay; none for an unsound mesh, which is a hold already."""
    if view is None or isinstance(part.scale_percent, tuple):
        return []
    width, most = job.settings.line_width_mm.value, job.limits.unlaid_percent
    return [WallUnlaid(part=part.name, view=view, line_width_mm=width, most_percent=most)]


def _listed_slots(part: Part, survey: Survey, claimed: set[int]) -> list[Rule]:
    """List the slots that no strap claims."""
    return [
        Said(
            finding=Finding(
                rule="slot.unclaimed",
                part=part.name,
                feature=f"slot {index + 1}",
                verdict=Verdict.GO,
                measured=slot.length_mm,
                unit="mm",
                at_mm=slot.at_mm,
                why=f"no strap is named for an opening of {slot.width_mm:.1f} x {slot.length_mm:.1f} mm",
                source="survey of the mesh",
                caution="listed only: no strap claims it",
            ),
            feature=f"slot {index + 1}",
        )
        for index, slot in enumerate(survey.slots)
        if index not in claimed
    ]


def _at_own_scale(job: Job, rule: Rule, surveys: Mapping[str, Survey]) -> list[Rule]:
    """Bind a rule to its part's own scale where it has one; add the oval rule for uneven scales."""
    if not rule.part or isinstance(rule, Said):
        return [rule]
    scale = job.part(rule.part).scale_percent
    if scale is None:
        return [rule]
    if isinstance(scale, float):
        return [Fixed(inner=rule, factor=scale / 100.0)]
    bore = next((b for b in surveys[rule.part].bores if b.id == rule.feature), None)
    if bore is None:
        return [Fixed(inner=rule, factor=1.0 if rule.feature in ("wall", "bed", "small part") else min(scale) / 100.0)]
    low, high = across(bore, scale)
    oval = [Said(finding=_oval(job, rule.part, bore, low, high), feature=bore.id)] if rule.rule == "bore.edge" else []
    return [Fixed(inner=rule, factor=low), *oval]


def across(bore: Bore, scale_percent: Vec3) -> tuple[float, float]:
    """Return the least and largest factor across a bore's axis: singular values of the scale on that plane."""
    axis = np.array(bore.axis)
    plane = np.linalg.svd(axis[None, :])[2][1:]
    values = np.linalg.svd(np.diag(scale_percent) / 100.0 @ plane.T, compute_uv=False)
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
        why=f"uneven scale makes {bore.id} {measured:.1f} % longer one way than the other",
        remedy="" if measured <= limit.value else "scale evenly, or put the bore back to a round one in the mesh",
        source=limit.source,
    )


def _lifted(job: Job, rule: Rule) -> Rule:
    """Wrap a rule whose holds a person has lifted."""
    for override in job.overrides:
        if override.rule == rule.rule and override.part in ("", rule.part):
            return Lifted(inner=rule, override=override)
    return rule


def _duties(job: Job) -> list[Guess]:
    """List the duties that nobody stated."""
    return [
        Guess(what=f"duty of {part.name}", value="load", why="not stated, so judged as the strictest")
        for part in job.parts
        if part.duty is None
    ]
