"""The rules of movement of one job, from what its mechanism does at several sizes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planner.finding import Finding, Verdict
from planner.job import Job, part_of
from planner.mechanism.cord_effects.cord_on_joint import StrungCord
from planner.mechanism.cord_effects.pull_of_several_tables import HAND, body_of
from planner.mechanism.force.body_drive import range_doubt
from planner.mechanism.judging.guessed_ways import at_any_angle, guided_question
from planner.mechanism.judging.missing_facts import ask_of, cure_of
from planner.mechanism.judging.move_cord import MovePull, MoveReturn, MoveTravel
from planner.mechanism.judging.move_ends import move_end
from planner.mechanism.judging.move_peg import peg_rules
from planner.mechanism.judging.move_play import MovePlay
from planner.mechanism.judging.move_range import MoveRange
from planner.mechanism.judging.move_together import together_rules
from planner.mechanism.judging.padded_side import padded_ends
from planner.mechanism.judging.range_ends import over_knots
from planner.mechanism.movement.move_records import CordMove, JointMove, Moved, Tip
from planner.mechanism.movement.movement import Movement
from planner.mechanism.movement.run_off import run_off
from planner.phrases import listed
from planner.rules import Rule, constants


def move_rules(job: Job, movement: Movement, *, drawn: bool = False) -> tuple[Rule, ...]:
    """Return every rule of movement of a job; ``drawn``: how far joints go is asked for at the drawn size alone."""
    moved = movement.at(1.0)
    rules: list[Rule] = []
    for joint in moved.joints:
        rules += _range(job, movement, joint, drawn=drawn)
    rules += together_rules(movement)
    rules += peg_rules(movement)
    for index, cord in enumerate(moved.cords):
        rules += _cord(job, movement, index, cord)
    rules += _play(job, movement, moved)
    return tuple(rules)


def unmoved_rules(job: Job) -> tuple[Rule, ...]:
    """Return a hold for every cord that is said to move something in a device in which nothing moves."""
    why = "nothing is known to move: no two parts share an axis, and no [[joint]] says so"
    return tuple(constants(_unknown("move.travel", cord.part, cord.name, why) for cord in job.cords if cord.pulls))


def _range(job: Job, movement: Movement, joint: JointMove, *, drawn: bool) -> Sequence[Rule]:
    """Return the rule about a joint's range; a hold where it is not known though somebody asks for it."""
    part = part_of(joint.parts[1])
    if joint.unknown:
        return constants([_unknown("move.range", part, joint.name, joint.unknown)]) if joint.needs_deg else []
    if joint.follows and joint.needs_deg is None:
        return []  # the joint that leads is asked about
    free = joint.free_deg == (None, None) and joint.kind != "slides"  # a slide without end runs off its guides
    if joint.kind == "fixed" or (joint.needs_deg is None and (job.guessed or free)):
        return []
    ends = [move_end(movement, joint, side, drawn=drawn) for side in (0, 1)]
    return [
        MoveRange(
            part=part,
            feature=joint.name,
            low=ends[0],
            high=ends[1],
            needs=joint.needs_deg,
            near=joint.least_gap,
            sunk=joint.sunk,
            clear_mm=job.limits.running_sliding_mm.value,
            unplaced=movement.mechanism.placed.unplaced,
            loose=at_any_angle(movement),
            guess=guided_question(movement, joint.name),
            padded=padded_ends(movement, joint),
            off=run_off(movement, joint),
            unit=joint.unit,
        )
    ]


def _cord(job: Job, movement: Movement, index: int, cord: CordMove) -> Sequence[Rule]:
    """Return the rules about one cord; a hold where its numbers are not known."""
    if cord.unknown:
        asked = any(one.name == cord.name and (one.pulls or one.kind == "elastic") for one in job.cords)
        verdict = Verdict.HOLD if asked else Verdict.GO
        return constants([replace(_unknown("move.travel", cord.part, cord.name, cord.unknown), verdict=verdict)])
    rules: list[Rule] = []

    def at(s: float) -> CordMove:
        return movement.cords_at(s).cords[index]

    needs, how_far = over_knots(lambda s: at(s).asks_mm), _how_far(movement, cord.name)
    drive = next((body_of(one, job.drive) for one in job.cords if one.name == cord.name), HAND)
    if needs is not None:
        rules.append(
            MoveTravel(
                part=cord.part,
                feature=cord.name,
                needs_mm=needs,
                has_mm=cord.has_mm,
                body=drive,
                doubt=range_doubt(job.drive) if job.drive else "",
                beside=cord.together,
                tied_mm=cord.tied_mm,
                how_far=how_far,
            )
        )
    pulls = [over_knots(lambda s, end=end: _pull(at(s), end)) for end in (0, 2)]  # type: ignore[misc]
    if pulls[0] is not None and pulls[1] is not None and cord.grip_n is not None:
        limits = job.limits
        rules.append(
            MovePull(
                part=cord.part,
                feature=cord.name,
                low_n=pulls[0],
                high_n=pulls[1],
                grip_n=cord.grip_n,
                greatest_n=job.use.pull_n,
                beside=cord.together,
                share=limits.cord_share.value,
                source=f"{limits.cord_share.source}; friction: {limits.cord_friction.source}",
            )
        )
    left, usual = (over_knots(lambda s, end=end: _back(at(s), end)) for end in (0, 1))  # type: ignore[misc]
    if left is not None and usual is not None:
        rules.append(
            MoveReturn(
                part=cord.part,
                feature=cord.joint,
                elastic=cord.elastic,
                left_n_mm=left,
                usual_n_mm=usual,
                shuts=cord.shuts,
                how_far=how_far,
            )
        )
    known = ((needs, cord.travel_mm), (pulls[1], cord.pull_n), (left, cord.back_n_mm))
    if any(curve is None and drawn is not None for curve, drawn in known):
        why = "its numbers are known at the drawn size, not at all sizes: look at its path"
        rules += constants([_unknown("move.travel", cord.part, cord.name, why)])
    rules += _guided(movement, cord)
    for rule, why in (
        ("move.travel", cord.ways_unknown),
        ("move.travel", cord.crosses),
        ("move.pull", cord.pull_unknown),
        ("move.return", cord.return_unknown),
    ):
        rules += constants([_unknown(rule, cord.part, cord.name, why)]) if why else []
    return rules


def _how_far(movement: Movement, name: str) -> str:
    """Return the question how far a cord's joints must go, where it is not stated; empty where it is."""
    strung = movement.strung.get(name)
    legs = strung.legs if isinstance(strung, StrungCord) else ()
    unsaid = [leg.joint.name for leg in legs if leg.joint.needs_deg is None]
    return f"How far must {listed(unsaid)} go (needs_deg)?" if unsaid else ""


def _guided(movement: Movement, cord: CordMove) -> Sequence[Rule]:
    """Return a hold where what a cord drives slides only by the faces that guide it, which nobody states."""
    strung = movement.strung.get(cord.name)
    legs = strung.legs if isinstance(strung, StrungCord) else ()
    asked = next(filter(None, (guided_question(movement, leg.joint.name) for leg in legs)), "")
    if not asked:
        return []
    found = _unknown("move.travel", cord.part, cord.name, "how it goes rests on a slide that nobody states")
    return constants([replace(found, remedy="state that slide as a [[joint]]", question=asked)])


def _back(cord: CordMove, end: int) -> float | None:
    """Return what is left to open again: with the most friction, or as expected."""
    return None if cord.back_n_mm is None else cord.back_n_mm[end]


def _pull(cord: CordMove, end: int) -> float | None:
    """Return one end of a cord's pull."""
    return None if cord.pull_n is None else cord.pull_n[end]


def _play(job: Job, movement: Movement, drawn: Moved) -> Sequence[Rule]:
    """Return the rule about wobble at the tip, where it is known."""
    if drawn.tip is None:
        return []
    curves = [over_knots(lambda s, end=end: _wobble(movement.tip_at(s), end)) for end in (0, 1)]  # type: ignore[misc]
    worst, usual = curves
    if worst is None or usual is None or not drawn.joints:
        return []
    part = part_of(drawn.tip.copy)
    return [MovePlay(part=part, feature="the tip", worst_mm=worst, usual_mm=usual, most_mm=job.use.wobble_mm)]


def _wobble(tip: Tip | None, end: int) -> float | None:
    """Return one end of the tip's wobble."""
    return None if tip is None or tip.wobble_mm is None else tip.wobble_mm[end]


def _unknown(rule: str, part: str, feature: str, why: str) -> Finding:
    """Hold what could not be worked out."""
    return Finding(
        rule=rule,
        part=part,
        feature=feature,
        verdict=Verdict.HOLD,
        why=why if why.startswith(feature) else f"{feature}: {why}",
        remedy=cure_of(why),
        source="mechanism",
        question=ask_of(why),
    )
