"""What a load at the tip does to the copies of a device: cords, elastics and pins push on each, as drawn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from math import inf

from planner.job import Job, part_of
from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.small_moves import Motion
from planner.mechanism.cord.vectors import cross, dot, less, size, times, unit
from planner.mechanism.cord_effects.chain import beyond_each
from planner.mechanism.cord_effects.cord_moves import bands_on, driven_joints
from planner.mechanism.cord_effects.cord_on_joint import StrungCord, friction_of
from planner.mechanism.cord_effects.pull_of_one_table import fingers_of
from planner.mechanism.force.chain_pull import Ends, chain_pulls, under_one_load
from planner.mechanism.force.driven_joint import DrivenJoint
from planner.mechanism.force.equaliser import hand_pull_n
from planner.mechanism.force.friction import Friction, levels
from planner.mechanism.force.point_load import PointLoad, moment_n_mm, resultant_n, scaled
from planner.mechanism.force.pull_range import Levels, pull_over
from planner.mechanism.movement.move_records import NO_PULL_N
from planner.mechanism.places.frame import Frame
from planner.mesh import Solid

CopyLoads = dict[str, tuple[PointLoad, ...]]


def tip_loads(
    job: Job,
    solids: Mapping[str, Solid],
    frames: Mapping[str, Frame],
    strung: Mapping[str, StrungCord | str],
    load_n: float,
) -> CopyLoads:
    """Return the forces on every copy that a cord under a load at its tip reaches, each in the copy's mesh, as drawn.

    The cord pulls as hard as the hardest joint that it crosses needs: the easier ones close until what is gripped holds
    them. At the place of the range where that pull is greatest, with friction as expected: the load, the pull that
    holds it, the elastics, and on every copy between the tip and what stands what the pin of the next joint passes.
    What else holds a copy is left to whoever asks. Cords whose tip or elastic is not known, or that no pull moves, are
    left out.

    Parameters
    ----------
    frames
        Where copies stand as drawn.
    strung
        Every cord with a path, by its name.
    """
    found: CopyLoads = {}
    for one, joints, friction in holding_cords(job, solids, strung):
        for load in _at_most(one, joints, frames, friction, load_n, kept_n(job, one)):
            found[load.copy] = (*found.get(load.copy, ()), load)
    return found


def holding_cords(
    job: Job, solids: Mapping[str, Solid], strung: Mapping[str, StrungCord | str]
) -> Iterator[tuple[StrungCord, list[DrivenJoint], tuple[Friction, Friction, Friction]]]:
    """Yield every cord that can hold a load at a known tip, with the joints that it crosses and levels of friction.

    The joints are all under one load.
    """
    for one in strung.values():
        if not isinstance(one, StrungCord) or one.cord.kind == "elastic":
            continue
        tip = one.cord.grip_at_mm or job.part(part_of(one.driven)).load_at_mm
        if tip is None or one.tip_off:
            continue
        runs = [one.run(1.0, leg) for leg in one.legs]
        joints = driven_joints(job, solids, one, bands_on(job, [one], strung), runs, tip, 1.0)
        if not isinstance(joints, str):
            yield one, under_one_load(joints), levels(friction_of(job, one.cord), job.limits.pin_friction)


def kept_n(job: Job, one: StrungCord) -> float:
    """Return the most of the pull that can be kept up which comes to a cord; infinite where that is not measured."""
    if job.use.pull_n is None:
        return inf
    kept = job.limits.cord_share.value * job.use.pull_n
    return kept / hand_pull_n(one.cord.equaliser, [1.0] * fingers_of(job, one))


def held_pulls(
    joints: Sequence[DrivenJoint], load_n: float, friction: Levels, most_n: float
) -> tuple[list[Ends], list[Ends], list[Ends]]:
    """Return the least and the most that a cord pulls to hold a load, at every place and level of friction.

    The most is what the hardest joint needs, but no more than ``most_n`` where stops may take the rest. A joint that no
    pull holds somewhere, as expected, must be held by something else: it asks for nothing. Empty where none is left.
    """
    asked = [(joint.on_stop, pull_over(joint, load_n, friction)) for joint in joints]
    asked = [(stops, over) for stops, over in asked if max(over.expected_n) < NO_PULL_N]
    if not asked:
        return [], [], []
    stops, pulls = zip(*asked, strict=True)
    low, expected, high = (
        [(least, max(least, min(most, most_n))) for least, most in chain_pulls(pulls, stops, level)]
        for level in range(3)
    )
    return low, expected, high


def tips(job: Job, frames: Mapping[str, Frame], strung: Mapping[str, StrungCord | str], load_n: float) -> CopyLoads:
    """Return a load at the tip of every copy that a cord drives, in its mesh, as drawn.

    It acts as the part's ``load_dir`` says, else across the axis of the joint and the arm to it.
    """
    found: CopyLoads = {}
    for one in strung.values():
        if not isinstance(one, StrungCord) or one.cord.kind == "elastic" or one.driven in found:
            continue
        part = job.part(part_of(one.driven))
        tip = part.load_at_mm or one.cord.grip_at_mm
        if tip is None or one.tip_off:
            continue
        back = frames[one.driven].inverse()
        arm = less(tip, back.point(one.joint.at_mm))
        way = part.load_dir or cross(back.direction(one.joint.axis), arm)
        if size(way) > 0.0:
            force = times(unit(way), load_n)
            found[one.driven] = (PointLoad(copy=one.driven, at_mm=tip, force_n=force),)
    return found


def _at_most(
    one: StrungCord,
    joints: Sequence[DrivenJoint],
    frames: Mapping[str, Frame],
    friction: tuple[Friction, Friction, Friction],
    load_n: float,
    most_n: float,
) -> Iterator[PointLoad]:
    """Yield all forces where the pull is greatest, each in its copy's mesh; what stops save is not pulled past most."""
    joint = joints[0]
    pulls = held_pulls(joints, load_n, friction, most_n)[1]
    if not pulls:
        return
    k = max(range(len(pulls)), key=lambda place: pulls[place][1])
    motion = joint.motions[k]
    loads = [
        *scaled(joint.pull_loads(k, friction[1]), pulls[k][1]),
        *scaled([joint.grip_load(k)], load_n),
        *_elastics(joints, k, friction[1]),
    ]
    for load in loads:
        yield _in_mesh(load, motion.here[load.copy].inverse())
    if not joint.loops:
        yield from _passed(one, motion, loads, frames)


def _elastics(joints: Sequence[DrivenJoint], k: int, friction: Friction) -> Iterator[PointLoad]:
    """Yield what the elastics of all joints do, each once, whatever many of them it crosses."""
    seen: list[tuple[PathStop, ...]] = []
    for joint in joints:
        own = tuple(band for band in joint.elastics if band.stops not in seen)
        seen += [band.stops for band in own]
        yield from replace(joint, elastics=own).elastic_loads(k, friction)


def _passed(
    one: StrungCord, motion: Motion, loads: Sequence[PointLoad], frames: Mapping[str, Frame]
) -> Iterator[PointLoad]:
    """Yield what each joint between the tip and what stands passes on: the sum of all loads beyond it.

    A pin passes no moment about its axis.
    """
    for joint, stands, beyond in beyond_each(one.mechanism, one.driven):
        if stands not in frames:
            continue
        drawn, here = frames[stands].inverse(), motion.here[stands]
        at_mm, axis = here.point(drawn.point(joint.at_mm)), here.direction(drawn.direction(joint.axis))
        couple = moment_n_mm(loads, beyond, at_mm)
        if joint.kind == "turns":
            couple = less(couple, times(axis, dot(couple, axis)))
        load = PointLoad(
            copy=stands,
            at_mm=at_mm,
            force_n=resultant_n(loads, beyond),
            couple_n_mm=couple,
            over=tuple(bore for copy, bore in joint.bores if copy == stands),
        )
        yield _in_mesh(load, here.inverse())


def _in_mesh(load: PointLoad, back: Frame) -> PointLoad:
    """Return a force of the device in its copy's own mesh."""
    return replace(
        load,
        at_mm=back.point(load.at_mm),
        force_n=back.direction(load.force_n),
        couple_n_mm=back.direction(load.couple_n_mm),
    )
