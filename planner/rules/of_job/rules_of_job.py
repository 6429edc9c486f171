"""Bind every rule of a job to the features it speaks of: once, before any scale is tried."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from operator import is_

from planner.assembly import (
    Claim,
    CloseFit,
    Doubt,
    DrillReach,
    blind_findings,
    claims_of,
    goes_with,
    mating_findings,
    printed_in_bores,
    unheld_findings,
)
from planner.finding import Finding, Guess, Vec3
from planner.job import Job, Part, kind_of, marked_guesses
from planner.rules.fit.bed_size import bed_rules
from planner.rules.fit.calibration_age import calibration_findings
from planner.rules.fit.cord_force import cord_findings
from planner.rules.fit.mesh_rules import mesh_findings
from planner.rules.fit.mesh_units import in_doubt
from planner.rules.fit.mixed_scales import scale_rules
from planner.rules.fit.open_mesh import unsure
from planner.rules.fit.part_case import PartCase
from planner.rules.fit.small_part import small_hardware, small_rules
from planner.rules.fit.strength.bore_force import BoreForce, Forces
from planner.rules.fit.strength.joint_strength import joint_rules
from planner.rules.fit.strength.strength_ratio import ratio_rules
from planner.rules.fit.strength.thread_pull import pull_rules
from planner.rules.fit.walls.gap_inside import gap_inside_rules
from planner.rules.fit.walls.wall_lines import unlaid_rules
from planner.rules.of_job.belt_rules import belt_rules
from planner.rules.of_job.bore_rules import bore_rules
from planner.rules.of_job.channel_rules import channel_rules
from planner.rules.of_job.concerns import concerns
from planner.rules.of_job.mates.bearing_rules import bearing_rules
from planner.rules.of_job.mates.between_rules import between_rules
from planner.rules.of_job.mates.outside_work import outside_rules
from planner.rules.of_job.mates.peg_rules import peg_rules
from planner.rules.of_job.one_size import one_size
from planner.rules.of_job.opening_rules import gap_rules, seat_rules, slot_rules
from planner.rules.of_job.own_scale import at_own_scale
from planner.rules.of_job.reach_rules import reach_rules
from planner.rules.of_job.screw_seats.nut_pocket_rules import nut_pocket_rules
from planner.rules.of_job.slot_pin_rules import slot_pin_rules
from planner.rules.of_job.unjudged_bores import listed_slots
from planner.rules.of_job.wall_rules import wall_rules
from planner.rules.questions.given_answers import Answers
from planner.rules.questions.unanswered_rules_of import hanging
from planner.rules.questions.usual_values import Otherwise, otherwise
from planner.rules.questions.waiting_hold import waiting
from planner.rules.rule import HoldLifted, Rule, constants
from planner.rules.settings.without_layers import WithoutLayers
from planner.survey import LayerView, Survey

PART_RULES: tuple[Callable[[PartCase], list[Rule]], ...] = (
    bed_rules,
    wall_rules,
    ratio_rules,
    small_rules,
    unlaid_rules,
    gap_inside_rules,
    joint_rules,
    pull_rules,
)
"""What binds rules to one part: a rule about parts joins the function of its file, or has its own here."""


KnownRules = dict[str, list[tuple[tuple[object, ...], tuple[object, ...], list[Rule]]]]
"""The rules of each part, each with what was measured of it then, and what else they were bound from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What was measured of the meshes; the fields are those of ``rules_of``."""

    surveys: Mapping[str, Survey]
    downs: Mapping[str, Vec3]
    uneven: Mapping[str, Survey]
    views: Mapping[str, LayerView | None]
    close: Sequence[CloseFit] = ()
    forces: Forces = field(default_factory=dict)
    reach: DrillReach | None = None

    def forces_on(self, name: str) -> Mapping[str, tuple[BoreForce, ...]]:
        """Return what the bores of one part take, by bore."""
        return self.forces.get(name, {})

    def of(self, name: str) -> tuple[object, ...]:
        """Return what was measured of one part: the same objects, where nothing was measured again."""
        return self.surveys[name], self.uneven.get(name), self.views.get(name)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundRules:
    """All rules of a job, and what had to be guessed to bind them."""

    rules: tuple[Rule, ...]
    guesses: tuple[Guess, ...]
    doubts: tuple[Doubt, ...] = ()
    """What nobody has stated yet."""
    otherwise: Otherwise = field(default_factory=dict)
    """What each rule may be as well within the ranges of the profiles; empty where that was not asked for."""
    settings: WithoutLayers | None = None
    """The settings rules as far as they need no layers; None where there is no material, or a plan asks them."""

    @property
    def every(self) -> tuple[Rule, ...]:
        """The rules of fit and those of the settings."""
        return self.rules if self.settings is None else (*self.rules, *self.settings.rules)


def rules_of(
    job: Job,
    surveys: Mapping[str, Survey],
    downs: Mapping[str, Vec3],
    *,
    findings: Sequence[Finding] = (),
    gaps_mm: Mapping[tuple[str, str], float | None] | None = None,
    uneven: Mapping[str, Survey] | None = None,
    views: Mapping[str, LayerView | None] | None = None,
    today: date | None = None,
    asked: Sequence[Answers] = (),
    ranges: bool = False,
    sizes: Sequence[Rule] = (),
    known: KnownRules | None = None,
    close: Sequence[CloseFit] = (),
    forces: Forces | None = None,
    reach: DrillReach | None = None,
) -> BoundRules:
    """Bind every rule to every feature; those that hang on an answer are bound under each.

    Parameters
    ----------
    surveys, downs
        By part name, at drawn size: the survey, and the drawn direction that faces the bed.
    findings
        What was found before, such as that a measure is old; it holds at every scale.
    gaps_mm
        Gaps measured between meshes: for those that the job does not state, and those that can be compared.
    uneven
        Surveys, at size, of the parts that are scaled unevenly.
    views
        What a line can lay of each part in its pose.
    today
        The day against which the printer's own measurements are old; left out: they are not judged.
    asked
        What nobody has stated yet, with the answers to it.
    ranges
        Whether rules are bound at the ends of all ranges, too, so that a finding can tell what it rests on.
    sizes
        Rules about the size itself, such as what a person's measures ask for.
    known
        What was bound before of parts as they are: kept by who binds several states of a job.
    close
        Parts that lie between faces of others as drawn in place.
    forces
        What bores of loaded parts take under their load cases; where left out, the stated load alone.
    reach
        What measures whether a drill comes at a bore; left out: not judged.
    """
    mesh = Measured(
        surveys=surveys,
        downs=downs,
        uneven=uneven or {},
        views=views or {},
        close=close,
        forces=forces or {},
        reach=reach,
    )
    kept: KnownRules = {} if known is None else known

    def bind(job: Job) -> BoundRules:
        return _bound(job, mesh, findings, gaps_mm or {}, today, sizes, kept)

    def rules_for(job: Job) -> tuple[Rule, ...]:
        return bind(job).rules

    now = bind(job)
    rules, rounds = hanging(job, surveys, asked, rules_for) if asked else (now.rules, [])
    return BoundRules(
        rules=tuple(_lifted(job, rule) for rule in waiting(rules, asked)),
        guesses=now.guesses,
        doubts=tuple(one.doubt for one in asked),
        otherwise=otherwise(job, surveys, asked, rounds, rules_for) if ranges else {},
    )


def _bound(
    job: Job,
    mesh: Measured,
    findings: Sequence[Finding],
    gaps_mm: Mapping[tuple[str, str], float | None],
    today: date | None,
    sizes: Sequence[Rule],
    known: KnownRules,
) -> BoundRules:
    """Bind every rule of a job as it stands, guesses taken for facts, and lift no hold.

    ``known`` keeps the rules of each part by what they were bound from: under most answers most parts are as before.
    """
    surveys, downs = mesh.surveys, mesh.downs
    claims = claims_of(job, surveys)
    mating = mating_findings(job, claims.claims)
    gone_through = frozenset((claim.part, claim.bore.id) for claim in claims.claims) | claims.asked
    seats = seat_rules(job, surveys, downs, gone_through)
    nuts = nut_pocket_rules(job, surveys, downs, claims.claims, seats.bores)
    taken = gone_through | seats.bores | nuts.bores
    channels = channel_rules(job, surveys, downs, taken)
    slots, gaps = slot_rules(job, surveys), gap_rules(job, gaps_mm)
    rules: list[Rule] = [*seats.rules, *nuts.rules, *channels.rules, *slots.rules, *gaps.rules, *belt_rules(job)]
    rules += bearing_rules(job, surveys, downs, claims.claims)
    rules += slot_pin_rules(job, surveys, downs, claims.slots)
    printed = printed_in_bores(job, claims.claims, surveys)
    pegs = peg_rules(job, surveys, downs, taken | channels.bores, printed)
    rules += [*pegs.values(), *between_rules(job, mesh.close, downs), *outside_rules(job, surveys, mesh.close)]
    run_in = {(claim.part, number) for claim in claims.slots for number in claim.slots}
    for part in job.parts:
        mine = tuple(claim for claim in claims.claims if claim.part == part.name)
        spoken = {
            bore
            for name, bore in seats.bores | nuts.bores | channels.bores | claims.asked | pegs.keys()
            if name == part.name
        }
        strapped = {index for name, index in slots.slots | run_in if name == part.name}
        measured, pressed = mesh.of(part.name), mesh.forces_on(part.name)
        made_from = (downs[part.name], concerns(job, part.name), mine, spoken, strapped, pressed)
        kept = known.setdefault(part.name, [])
        found = next((r for of, other, r in kept if all(map(is_, of, measured)) and other == made_from), None)
        if found is None:
            found = _of_part(job, part, mesh, mine, spoken, strapped, printed.keys())
            kept.append((measured, made_from, found))
        rules += found
    copies = {part.name: part.count for part in job.parts}
    dated = calibration_findings(job, today) if today else []
    held = [*unheld_findings(job), *blind_findings(job, claims.claims)]
    said = [*claims.missing, *mating, *held, *mesh_findings(job, surveys), *findings]
    rules += constants((*said, *dated, *cord_findings(job.cords, job.use, job.limits, copies)))
    rules += [*sizes, *small_hardware(job)]
    rules = _judgeable(job, rules, in_doubt(job, surveys))
    scaled = [scaled_rule for rule in rules for scaled_rule in at_own_scale(job, rule, surveys)]
    scaled = one_size(scaled, goes_with(job)) + scale_rules(job, claims.claims, surveys, printed)
    scaled = unsure(job, scaled, surveys)
    of_openings = (claims, seats, channels, slots, gaps)
    guesses = (*job.notes, *(guess for each in of_openings for guess in each.guesses), *marked_guesses(job))
    return BoundRules(rules=tuple(scaled), guesses=guesses)


def _of_part(
    job: Job,
    part: Part,
    mesh: Measured,
    mine: tuple[Claim, ...],
    spoken: set[str],
    strapped: set[int],
    printed: Collection[tuple[str, str]],
) -> list[Rule]:
    """Bind the rules about one part and its bores; ``spoken`` and ``strapped`` are bores and slots with rules.

    The bores of ``printed`` pegs grow with what is in them, so the rules of bought hardware are not asked of them.
    """
    its = mesh.surveys[part.name]
    case = PartCase(
        job=job,
        part=part,
        survey=its,
        sized=mesh.uneven.get(part.name, its),
        claims=mine,
        down=mesh.downs[part.name],
        view=mesh.views.get(part.name),
        forces=mesh.forces_on(part.name),
    )
    bought = tuple(claim for claim in mine if (claim.part, claim.bore.id) not in printed)
    rules = bore_rules(job, part, its, bought, case.down, spoken)
    rules += reach_rules(rules, mesh.reach)
    rules += [rule for bind in PART_RULES for rule in bind(case)]
    return rules + listed_slots(part, its, strapped)


def _judgeable(job: Job, rules: list[Rule], doubted: frozenset[str]) -> list[Rule]:
    """Return the rules that do not hang on a unit that is open: those about the files, and those of other parts."""
    gaps = {f"{one} to {other}" for one, other in (gap.between for gap in job.gaps) if doubted & {one, other}}
    return [
        rule for rule in rules if kind_of(rule.rule).of_file or (rule.part not in doubted and rule.feature not in gaps)
    ]


def _lifted(job: Job, rule: Rule) -> Rule:
    """Wrap a rule whose holds a person has lifted."""
    for override in job.overrides:
        if override.rule == rule.rule and override.part in ("", rule.part):
            return HoldLifted(inner=rule, override=override)
    return rule
