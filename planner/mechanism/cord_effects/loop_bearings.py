"""The joints of a closed loop as they stand at one place, with their pins and how fast they turn."""

from __future__ import annotations

import math
from collections.abc import Mapping

from planner.finding import Vec3
from planner.job import Job, part_of
from planner.mechanism.cord.small_moves import Motion
from planner.mechanism.cord.vectors import dot, less, times, unit
from planner.mechanism.force.driven_joint import STANDS
from planner.mechanism.force.reactions import Bearing
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism


def in_loop(mechanism: Mechanism, joint: MovingJoint) -> bool:
    """Return whether a joint is one of a closed loop."""
    return any(joint.name in loop for loop in mechanism.loops)


def moving_bodies(mechanism: Mechanism, motion: Motion) -> dict[str, int]:
    """Return the number of the body of every copy that moves."""
    return {copy: n for n, group in enumerate(mechanism.groups) for copy in group if copy in motion.flows}


def bearing_joints(mechanism: Mechanism, bodies: Mapping[str, int]) -> list[MovingJoint]:
    """Return the joints between bodies that move, and of those with what stands."""
    return [one for one in mechanism.joints if len({bodies.get(copy, STANDS) for copy in one.parts}) > 1]


def loop_bearings(
    job: Job, mechanism: Mechanism, motion: Motion, bodies: Mapping[str, int], factor: float
) -> tuple[Bearing, ...]:
    """Return the same joints where they stand, at a scale."""
    found = []
    for joint in bearing_joints(mechanism, bodies):
        numbers = tuple(bodies.get(copy, STANDS) for copy in joint.parts)
        carrier = motion.here[joint.parts[0]].after(mechanism.frames[joint.parts[0]].inverse())
        axis, at = unit(carrier.direction(joint.axis)), times(carrier.point(joint.at_mm), factor)
        slides, rubs_mm, rolls = joint.kind == "slides", 0.0, 0.0
        if joint.about is not None:  # the pin goes with the copy that carries it, and turns at its radius
            pin = motion.here[joint.parts[1]].after(mechanism.frames[joint.parts[1]].inverse())
            at, about = times(pin.point(joint.at_mm), factor), unit(pin.direction(joint.about))
            turned = _turned(motion, joint, about, factor)
            rubs_mm, rolls = math.copysign(radius_mm(job, joint), turned), radius_mm(job, joint) * abs(turned)
        speed = _slid(motion, joint, at, axis, factor) if slides else _turned(motion, joint, axis, factor)
        found.append(
            Bearing(
                bodies=(numbers[0], numbers[1]),
                axis=axis,
                at_mm=at,
                slides=slides,
                about=joint.about,
                rubs_about_mm=rubs_mm,
                radius_mm=pin_mm(job, joint),
                speed_ratio=speed + math.copysign(rolls, speed),
                pin=joint.pin,
                part=part_of(joint.parts[1]),
            )
        )
    return tuple(found)


def pin_mm(job: Job, joint: MovingJoint) -> float:
    """Return the radius at which a joint's friction acts: that of its pin; 1 where it slides."""
    return 1.0 if joint.kind == "slides" else radius_mm(job, joint)


def radius_mm(job: Job, joint: MovingJoint) -> float:
    """Return the radius of a joint's pin; 0 where none is named."""
    pins = [hardware.seated_mm / 2 for hardware in job.hardware if hardware.name == joint.pin]
    return max(pins, default=0.0)


def _turned(motion: Motion, joint: MovingJoint, axis: Vec3, factor: float) -> float:
    """Return how far a joint turns for a radian, or a mm at size, of the one that leads."""
    stands, moves = (_spin(motion, copy) for copy in joint.parts)
    return dot(less(moves, stands), axis) / (factor if motion.slides else 1.0)


def _slid(motion: Motion, joint: MovingJoint, at_mm: Vec3, axis: Vec3, factor: float) -> float:
    """Return how far a joint slides, at size, for a radian (or a mm) of the one that leads."""
    stands, moves = (motion.speed_mm(copy, at_mm, factor) for copy in joint.parts)
    return dot(less(moves, stands), axis)


def _spin(motion: Motion, copy: str) -> Vec3:
    """Return a copy's speed of turning: the skew part of its flow."""
    flow = motion.flows.get(copy)
    if flow is None:
        return 0.0, 0.0, 0.0
    (_, b, c), (d, _, f), (g, h, _) = flow.turn
    return (h - f) / 2, (c - g) / 2, (d - b) / 2
