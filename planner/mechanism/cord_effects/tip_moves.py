"""The tip of a device: how far it wobbles through its chain of pins, and how far fingers part at contact."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Job, part_of
from planner.mechanism.cord.vectors import times
from planner.mechanism.cord_effects.chain import chain_to
from planner.mechanism.cord_effects.cord_on_joint import StrungCord
from planner.mechanism.cord_effects.pull_of_several_tables import body_of
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.movement.move_records import Tip
from planner.mechanism.play.face_room import OPEN, FaceRoom, face_room
from planner.mechanism.play.finger_spread import Finger, knot_words, spread_of
from planner.mechanism.play.pin_sleeves import pin_play
from planner.mechanism.play.wobble import Wobble, wobble_of
from planner.mesh import Solid
from planner.survey import Survey

SHARED = ("pulley", "bar")
"""With these, where one finger touches the others go on: no knot makes up for it, and none need."""


def tip_of(
    job: Job,
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    mechanism: Mechanism,
    strung: Mapping[str, StrungCord | str],
    downs: Mapping[str, Vec3],
    factor: float,
    rooms: Mapping[str, FaceRoom],
) -> Tip | None:
    """Return what play and knots do at the tips: the wobble of the worst one, and how far apart they touch.

    None where no tip is known. Copies of one part that grip at one place count as one tip for wobble: they lie in the
    same bores.
    """
    pulling = [one for one in strung.values() if isinstance(one, StrungCord) and one.cord.kind != "elastic"]
    tips = [(one, tip) for one in pulling if (tip := _tip_mm(job, one)) is not None]
    if not tips:
        return None
    kinds = {(part_of(one.driven), tip): (one.driven, tip) for one, tip in reversed(tips)}
    found = [
        (copy, wobble)
        for copy, tip in reversed(kinds.values())
        if (wobble := wobble_at(job, surveys, claims, mechanism, copy, tip, downs, factor, rooms)) is not None
    ]
    copy, worst = max(found, key=lambda each: each[1].worst_mm, default=(tips[0][0].driven, None))
    fingers = _at_once(job, tips, factor)
    spread = spread_of(fingers) if len(fingers) > 1 else None
    return Tip(
        copy=copy,
        wobble_mm=(worst.worst_mm, worst.p90_mm) if worst is not None else None,
        spread_mm=None if spread is None else spread.spread_mm,
        knot="" if spread is None else knot_words(fingers, spread),
    )


def _at_once(job: Job, tips: Sequence[tuple[StrungCord, Vec3]], factor: float) -> list[Finger]:
    """Return the fingers whose cords are drawn in alike with that of the first tip, each once.

    They are drawn by the same joint of the body, and by knots: a pulley or a bar lets each finger go on by itself.
    """
    first = tips[0][0].cord
    body = body_of(first, job.drive)
    mine = {
        one.driven: (one, tip)
        for one, tip in reversed(tips)
        if body_of(one.cord, job.drive) == body and one.cord.equaliser not in SHARED
    }
    return [] if first.equaliser in SHARED else [_finger(one, tip, factor) for one, tip in reversed(mine.values())]


def wobble_at(
    job: Job,
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    mechanism: Mechanism,
    copy: str,
    at_mm: Vec3,
    downs: Mapping[str, Vec3],
    factor: float,
    rooms: Mapping[str, FaceRoom],
) -> Wobble | None:
    """Return the wobble of a point of a copy, drawn in its mesh, at a scale; None where no pin leads to it."""
    frames = mechanism.frames
    joints = [
        pin_play(job, joint, surveys, frames, claims, downs, factor, rooms.get(joint.name, OPEN))
        for joint in chain_to(mechanism, copy)
    ]
    if not any(joint.sleeves for joint in joints):
        return None
    return wobble_of(joints, times(frames[copy].point(at_mm), factor))


def joint_play(
    job: Job,
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    mechanism: Mechanism,
    joint: MovingJoint,
    downs: Mapping[str, Vec3],
    factor: float,
    room: FaceRoom = OPEN,
) -> Wobble | None:
    """Return how far one joint lets the farthest point of its moving part wander; None where no bore guides it."""
    frames = mechanism.frames
    play = pin_play(job, joint, surveys, frames, claims, downs, factor, room)
    if not play.sleeves or joint.parts[1] not in frames:
        return None
    hull = frames[joint.parts[1]].points(surveys[part_of(joint.parts[1])].hull_mm)
    x, y, z = (float(v) for v in hull[int(((hull - np.array(joint.at_mm)) ** 2).sum(axis=1).argmax())])
    return wobble_of([play], times((x, y, z), factor))


def rooms_of(
    job: Job, solids: Mapping[str, Solid], mechanism: Mechanism, strung: Mapping[str, StrungCord | str]
) -> dict[str, FaceRoom]:
    """Return the room beside each joint on the way to the tip, by its name: the same at every size, as drawn."""
    found: dict[str, FaceRoom] = {}
    done: set[tuple[str, Vec3]] = set()
    for one in strung.values():
        tip = _tip_mm(job, one) if isinstance(one, StrungCord) and one.cord.kind != "elastic" else None
        if not isinstance(one, StrungCord) or tip is None or (part_of(one.driven), tip) in done:
            continue
        done.add((part_of(one.driven), tip))
        at = mechanism.frames[one.driven].point(tip)
        for joint in chain_to(mechanism, one.driven):
            if joint.name not in found:
                found[joint.name] = face_room(solids, mechanism, joint, at)
    return found


def _tip_mm(job: Job, one: StrungCord) -> Vec3 | None:
    """Return where a cord's driven part grips, in its mesh; None where that is not stated, or lies off it."""
    return None if one.tip_off else one.cord.grip_at_mm or job.part(part_of(one.driven)).load_at_mm


def _finger(one: StrungCord, at_mm: Vec3, factor: float) -> Finger:
    """Return a finger: the cord that it takes in up to the closed end of its range, and its tip's way there."""
    run = one.run(factor)
    last = run.closed
    motion = one.legs[0].motions[last]
    place = times(motion.here[one.driven].point(at_mm), factor)
    speed = motion.speed_mm(one.driven, place, factor)
    way = sum(v * v for v in speed) ** 0.5
    arm = abs(run.arm_mm[last])
    return Finger(
        name=one.driven,
        takes_mm=max(run.length_mm) - run.length_mm[last],
        tip_ratio=way / arm if arm > 0.0 else 0.0,
    )
