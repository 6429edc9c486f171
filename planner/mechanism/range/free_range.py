"""How far every joint of a device goes until bodies meet, and what meets."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np

from planner.cache import kept, key_of
from planner.job import Job
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.range.device_bodies import Body, device_bodies
from planner.mechanism.range.followers import followers
from planner.mechanism.range.joint_motion import JointMotion
from planner.mechanism.range.joint_range import JointRange, LeastGap, Ranges, Stop, What
from planner.mechanism.range.least_gap import least_gap
from planner.mechanism.range.meeting import SEARCH_MM, Meeting
from planner.mechanism.range.meetings import meetings_of
from planner.mechanism.range.sweep import first_meeting
from planner.mesh import Solid

RANGE_VERSION = 5
"""Raised whenever a range changes, so that kept ones are not trusted."""
TURN_DEG = 360.0
MARGIN_MM = 0.005
"""Bodies at other heights along the axis, or in contact there face on face, do not meet: they overlap by more."""
PLACES_DEG = (0.1, 0.5, 1.5)
"""What meets is looked at so far beyond a stop, where the bodies are in each other."""


def ranges_of(
    job: Job,
    solids: Mapping[str, Solid],
    mechanism: Mechanism,
    *,
    clearance_mm: float = 0.0,
    factor: float = 1.0,
    held: Mapping[str, float] | None = None,
) -> Ranges:
    """Return how far every joint goes at a size, the others as drawn or held at given values.

    Parameters
    ----------
    clearance_mm
        What must stay free between bodies that were drawn farther apart, in mm as printed.
    factor
        Size over drawn size: hardware keeps its own.
    held
        Values of other joints, such as ``{"deck to jaw": 20.0}``; LockedError where a loop cannot be brought there.
    """
    facts = (
        [(name, solid.sha256, solid.vertices_mm.tobytes()) for name, solid in sorted(solids.items())],
        [(copy, frame.matrix().tobytes()) for copy, frame in mechanism.frames.items()],
        [sorted(group) for group in mechanism.groups],
        (mechanism.joints, mechanism.linkage.ways, mechanism.loops, sorted(mechanism.tied), mechanism.stacks),
        (job.parts, job.tables),
        (clearance_mm, factor, sorted((held or {}).items())),
    )
    key = key_of(RANGE_VERSION, *facts)
    return kept("mechanism", key, lambda: _ranges(job, solids, mechanism, clearance_mm / factor, factor, held or {}))


def _ranges(
    job: Job,
    solids: Mapping[str, Solid],
    mechanism: Mechanism,
    clear_mm: float,
    factor: float,
    held: Mapping[str, float],
) -> Ranges:
    """Try every joint that leads, and say how far those of its loop follow."""
    bodies, untried = device_bodies(job, solids, mechanism, factor)
    found: dict[str, JointRange] = {}
    for joint in mechanism.joints:  # those that lead come first
        if joint.name not in found and joint.name not in held:
            found |= _led(mechanism, bodies, joint, clear_mm, held)
    return Ranges(joints=tuple(found[j.name] for j in mechanism.joints if j.name in found), untried=untried)


def _led(
    mechanism: Mechanism, bodies: Sequence[Body], joint: MovingJoint, clear_mm: float, held: Mapping[str, float]
) -> dict[str, JointRange]:
    """Return a joint's range, and those of the joints that a closed loop takes along with it."""
    motion = JointMotion(mechanism, joint.name, held)
    meetings = _meetings(mechanism, bodies, joint, motion, clear_mm + MARGIN_MM if clear_mm > 0 else -MARGIN_MM)
    looped = frozenset[str]().union(*(loop for loop in mechanism.loops if joint.name in loop))
    far = TURN_DEG if joint.kind == "turns" else _far_mm(joint, meetings)
    up = _stop(motion, joint, meetings, far, clear_mm)
    whole = up is None and joint.kind == "turns" and joint.limits_deg is None
    back = TURN_DEG - up.at_deg + motion.begin if up is not None and joint.kind == "turns" else far
    down = None if whole else _stop(motion, joint, meetings, -back, clear_mm)
    low, high = (None if stop is None else stop.at_deg for stop in (down, up))
    stops = tuple(stop for stop in (down, up) if stop is not None)
    least = None
    if joint.needs_deg is not None:
        asked = (each - motion.begin for each in joint.needs_deg)
        near = _meetings(mechanism, bodies, joint, motion, SEARCH_MM)
        least = _least(near, motion, *asked)
    found = {joint.name: JointRange(joint=joint.name, free_deg=(low, high), stops=stops, least_gap=least)}
    if looped:
        span = (
            -TURN_DEG / 2 if low is None else low - motion.begin,
            TURN_DEG / 2 if high is None else high - motion.begin,
        )
        found |= followers(mechanism, motion, joint, looped - {joint.name} - set(held), span, stops)
    return found


def _stop(
    motion: JointMotion, joint: MovingJoint, meetings: Sequence[Meeting], far: float, clear_mm: float
) -> Stop | None:
    """Return what stops a joint on its way to a value; None where nothing does."""
    end, locked = motion.end(far)
    what: What | None = "locked" if locked else None
    if joint.limits_deg is not None:
        limit = joint.limits_deg[1 if far > 0 else 0] - motion.begin
        if abs(end) > abs(limit) or limit * far <= 0:
            end, what = (0.0 if limit * far <= 0 else limit), "stated"
    met: tuple[Meeting, float] | None = None
    for meeting in meetings:
        found = first_meeting(meeting, motion, (0.0, end), clear_mm)
        if found is not None:
            end, met = found[0], (meeting, found[1])
    if met is None:
        return None if what is None else Stop(at_deg=motion.begin + end, what=what)
    return _met(motion, joint, *met, end=end, far=far, clear_mm=clear_mm)


def _met(
    motion: JointMotion, joint: MovingJoint, meeting: Meeting, beyond: float, *, end: float, far: float, clear_mm: float
) -> Stop:
    """Return the stop where two bodies meet: of bodies that touch at rest, a clearance before they meet elsewhere."""
    sense = 1.0 if far > 0 else -1.0
    moves = motion(beyond)
    for more in PLACES_DEG:
        try:
            there = motion(beyond + sense * more)
        except LockedError:
            break
        if meeting.overlap(meeting.between(there)) is not None:
            moves = there
            break
    at = meeting.place_mm(moves)
    between = np.asarray(at) - np.asarray(joint.at_mm)
    arm = float(np.linalg.norm(np.cross(between, np.asarray(joint.axis))))
    near = not (meeting.touching or meeting.overlap(meeting.between(motion(beyond))) is not None)
    if meeting.touching and clear_mm > 0:
        back = clear_mm if joint.kind == "slides" else math.degrees(clear_mm / max(arm, clear_mm))
        end, near = sense * max(0.0, sense * end - back), True
    return Stop(
        at_deg=motion.begin + end,
        what="near" if near else "meets",
        parts=meeting.names,
        at_mm=at,
        arm_mm=arm if joint.kind == "turns" else None,
        guessed=meeting.guessed,
    )


def _least(meetings: Sequence[Meeting], motion: JointMotion, low: float, high: float) -> LeastGap | None:
    """Return the least gap over what is needed, as far as the linkage goes."""
    low, high = (motion.end(value)[0] if value else 0.0 for value in (low, high))
    return least_gap(meetings, motion, (low, high))


def _far_mm(joint: MovingJoint, meetings: Sequence[Meeting]) -> float:
    """Return how far a sliding joint must go until everything is past each other."""
    axis = np.asarray(joint.axis)
    longs = [
        float(np.ptp(np.asarray(body.bounding_box()).reshape(2, 3), axis=0) @ np.abs(axis))
        for meeting in meetings
        for body in (meeting.one, meeting.other)
    ]
    return 2.0 * max(longs, default=0.0) + 1.0


def _meetings(
    mechanism: Mechanism, bodies: Sequence[Body], joint: MovingJoint, motion: JointMotion, margin_mm: float
) -> tuple[Meeting, ...]:
    """Return what may meet; nothing where the linkage cannot move at all."""
    for step in (1.0, -1.0, 0.05, -0.05):
        try:
            return meetings_of(mechanism, bodies, joint, (motion(0.0), motion(step)), margin_mm)
        except LockedError:
            continue
    return ()
