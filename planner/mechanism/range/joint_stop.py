"""What stops a joint on its way: the first meeting, or its own end."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.range.boxes_on_way import Course
from planner.mechanism.range.joint_motion import JointMotion
from planner.mechanism.range.joint_range import JointRange, Stop, What
from planner.mechanism.range.sweep import first_meeting
from planner.mechanism.range.two_bodies import Meeting

PARTS = (0.0, 0.03, 0.1, 0.3)
"""All bodies are followed over so much of the way first: where two meet early, nothing needs to go farther."""
PLACES_DEG = (0.1, 0.5, 1.5)
"""What meets is looked at so far beyond a stop, where the bodies are in each other."""


def known_free(motion: JointMotion, inner: JointRange | None) -> tuple[float, float]:
    """Return how far down and up a joint is known to go, from where it began: as far as in a smaller device."""
    if inner is None:
        return 0.0, 0.0
    low, high = inner.free_deg
    return (
        -math.inf if low is None else min(low - motion.begin, 0.0),
        math.inf if high is None else max(high - motion.begin, 0.0),
    )


def own_end(motion: JointMotion, joint: MovingJoint, far_deg: float, known: Stop | None) -> tuple[float, What | None]:
    """Return how far a joint goes toward a value if nothing meets, and what ends it there: a known stop, or its own."""
    if known is not None:
        return known.at_deg - motion.begin, None
    end, locked = motion.end(far_deg)
    what: What | None = "locked" if locked else None
    if joint.limits_deg is not None:
        limit = joint.limits_deg[1 if far_deg > 0 else 0] - motion.begin
        if abs(end) > abs(limit) or limit * far_deg <= 0:
            return (0.0 if limit * far_deg <= 0 else limit), "stated"
    return end, what


def stop_on(
    motion: JointMotion,
    joint: MovingJoint,
    meetings: Sequence[Meeting],
    way: tuple[float, float],
    clear_mm: float,
    known: Stop | None,
    course: Course,
) -> Stop | None:
    """Return what stops a joint on its way to a value: none of the meetings, where ``known`` is there before.

    ``way`` begins where it is known to come to.
    """
    free, far = way
    end, what = own_end(motion, joint, far, known)
    met: tuple[Meeting, float] | None = None
    for begin, until in pairwise((*(far * share for share in PARTS), far)):
        start = max(begin, free, key=abs)
        nearer = min(until, end, key=abs)
        for meeting in meetings if abs(start) < abs(nearer) else ():
            nearer = min(until, end, key=abs)
            found = first_meeting(meeting, motion, (start, nearer), clear_mm, course)
            if found is not None:
                end, met = found[0], (meeting, found[1])
        if met is not None:
            return _met(motion, joint, *met, end=end, far=far, clear_mm=clear_mm)
    if known is not None or what is None:
        return known
    return Stop(at_deg=motion.begin + end, what=what)


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
        soft=meeting.soft,
    )
