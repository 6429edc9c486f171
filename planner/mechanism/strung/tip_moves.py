"""The tip of a device: how far it wobbles through its chain of pins, and how far fingers part at contact."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Job, part_of
from planner.mechanism.cord.vectors import times
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.moved.moved import Tip
from planner.mechanism.play.face_room import OPEN, FaceRoom, face_room
from planner.mechanism.play.finger_spread import Finger, knot_words, spread_of
from planner.mechanism.play.pin_sleeves import sleeves_of
from planner.mechanism.play.wobble import PinPlay, Wobble, wobble_of
from planner.mechanism.strung.strung_cord import StrungCord, chain_to
from planner.mesh import Solid
from planner.survey import Survey


def tip_of(
    job: Job,
    claims: Sequence[Claim],
    mechanism: Mechanism,
    strung: Mapping[str, StrungCord | str],
    downs: Mapping[str, Vec3],
    factor: float,
    rooms: Mapping[str, FaceRoom],
) -> Tip | None:
    """Return what play and knots do at the tip of the first cord that grips; None where no tip is known."""
    pulling = [one for one in strung.values() if isinstance(one, StrungCord) and one.cord.kind != "elastic"]
    tips = [(one, tip) for one in pulling if (tip := _tip_mm(job, one)) is not None]
    if not tips:
        return None
    one, tip = tips[0]
    wobble = wobble_at(job, claims, mechanism, one.driven, tip, downs, factor, rooms)
    fingers = [_finger(each, at, factor) for each, at in tips]
    spread = spread_of(fingers) if len(fingers) > 1 else None
    return Tip(
        copy=one.driven,
        wobble_mm=(wobble.worst_mm, wobble.p90_mm) if wobble is not None else None,
        spread_mm=None if spread is None else spread.spread_mm,
        knot="" if spread is None else knot_words(fingers, spread),
    )


def wobble_at(
    job: Job,
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
    joints = []
    for joint in chain_to(mechanism, copy):
        room = rooms.get(joint.name, OPEN)
        sleeves = sleeves_of(job, joint, frames, claims, downs, factor)
        joints.append(PinPlay(sleeves=sleeves, float_mm=room.float_mm * factor, tilt_rad=room.tilt_rad))
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
    sleeves = sleeves_of(job, joint, frames, claims, downs, factor)
    if not sleeves or joint.parts[1] not in frames:
        return None
    hull = frames[joint.parts[1]].points(surveys[part_of(joint.parts[1])].hull_mm)
    x, y, z = (float(v) for v in hull[int(((hull - np.array(joint.at_mm)) ** 2).sum(axis=1).argmax())])
    play = PinPlay(sleeves=sleeves, float_mm=room.float_mm * factor, tilt_rad=room.tilt_rad)
    return wobble_of([play], times((x, y, z), factor))


def rooms_of(
    job: Job, solids: Mapping[str, Solid], mechanism: Mechanism, strung: Mapping[str, StrungCord | str]
) -> dict[str, FaceRoom]:
    """Return the room beside each joint on the way to the tip, by its name: the same at every size, as drawn."""
    for one in strung.values():
        tip = _tip_mm(job, one) if isinstance(one, StrungCord) and one.cord.kind != "elastic" else None
        if isinstance(one, StrungCord) and tip is not None:
            at = mechanism.frames[one.driven].point(tip)
            return {joint.name: face_room(solids, mechanism, joint, at) for joint in chain_to(mechanism, one.driven)}
    return {}


def _tip_mm(job: Job, one: StrungCord) -> Vec3 | None:
    """Return where a cord's driven part grips, in its mesh."""
    return one.cord.grip_at_mm or job.part(part_of(one.driven)).load_at_mm


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
