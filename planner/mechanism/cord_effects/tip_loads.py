"""What a load at the tip does to the copies of a device: cords, elastics and pins push on each, as drawn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from planner.finding import Vec3
from planner.job import Job, part_of
from planner.mechanism.cord.vectors import cross, less, size, times, unit
from planner.mechanism.cord_effects.cord_moves import bands_on, driven_joints
from planner.mechanism.cord_effects.cord_on_joint import Leg, StrungCord, friction_of
from planner.mechanism.force.driven_joint import DrivenJoint
from planner.mechanism.force.friction import Friction, levels
from planner.mechanism.force.point_load import PointLoad, resultant_n, scaled
from planner.mechanism.force.pull_range import pull_over
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

    At the place of the range where the cord's pull is greatest, with friction as expected: the load, the pull that
    holds it, the elastics, and on the copy that carries the joint what its pin passes. What else holds a copy is left
    to whoever asks. Cords whose tip or elastic is not known, or that no pull moves, are left out.

    Parameters
    ----------
    frames
        Where copies stand as drawn.
    strung
        Every cord with a path, by its name.
    """
    found: CopyLoads = {}
    for one, joints, friction in holding_cords(job, solids, strung):
        for load in _at_most(one.legs[0], joints[0], frames, friction, load_n):
            found[load.copy] = (*found.get(load.copy, ()), load)
    return found


def holding_cords(
    job: Job, solids: Mapping[str, Solid], strung: Mapping[str, StrungCord | str]
) -> Iterator[tuple[StrungCord, list[DrivenJoint], tuple[Friction, Friction, Friction]]]:
    """Yield every cord that can hold a load at a known tip, with the joints that it crosses and levels of friction."""
    for one in strung.values():
        if not isinstance(one, StrungCord) or one.cord.kind == "elastic":
            continue
        tip = one.cord.grip_at_mm or job.part(part_of(one.driven)).load_at_mm
        if tip is None or one.tip_off:
            continue
        runs = [one.run(1.0, leg) for leg in one.legs]
        joints = driven_joints(job, solids, one, bands_on(job, [one], strung), runs, tip, 1.0)
        if not isinstance(joints, str):
            yield one, joints, levels(friction_of(job, one.cord), job.limits.pin_friction)


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
    leg: Leg,
    joint: DrivenJoint,
    frames: Mapping[str, Frame],
    friction: tuple[Friction, Friction, Friction],
    load_n: float,
) -> Iterable[PointLoad]:
    """Yield all forces where the pull is greatest, each in its copy's mesh."""
    pulls = pull_over(joint, load_n, friction).expected_n
    k = pulls.index(max(pulls))
    if pulls[k] >= NO_PULL_N:
        return
    motion = joint.motions[k]
    loads = [
        *scaled(joint.pull_loads(k, friction[1]), pulls[k]),
        *scaled([joint.grip_load(motion)], load_n),
        *joint.elastic_loads(k, friction[1]),
    ]
    for load in loads:
        here = motion.here[load.copy].inverse()
        yield _in_mesh(load.copy, here, load.at_mm, load.force_n)
    stands = leg.joint.parts[0]
    if joint.loops or stands not in frames:
        return
    at_mm = frames[stands].inverse().point(leg.joint.at_mm)
    force = motion.here[stands].inverse().direction(resultant_n(loads, joint.moving))
    yield PointLoad(copy=stands, at_mm=at_mm, force_n=force)


def _in_mesh(copy: str, back: Frame, at_mm: Vec3, force_n: Vec3) -> PointLoad:
    """Return a force of the device in a copy's own mesh."""
    return PointLoad(copy=copy, at_mm=back.point(at_mm), force_n=back.direction(force_n))
