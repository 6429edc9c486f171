"""How far every joint of a device goes until bodies meet, and what meets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from planner.cache import kept, key_of
from planner.cores import ahead
from planner.job import Job
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.places.frame import Frame
from planner.mechanism.range.all_together import all_together
from planner.mechanism.range.body_pairs import MARGIN_MM, loose_groups, may_meet, meetings_of, moving_pairs
from planner.mechanism.range.boxes_on_way import Course, course_of
from planner.mechanism.range.device_bodies import Body, device_bodies
from planner.mechanism.range.followers import followers
from planner.mechanism.range.joint_motion import JointMotion
from planner.mechanism.range.joint_range import JointRange, LeastGap, Ranges, Stop
from planner.mechanism.range.joint_stop import known_free, own_end, stop_on
from planner.mechanism.range.least_gap import least_gap
from planner.mechanism.range.two_bodies import SEARCH_MM, Meeting
from planner.mesh import Solid

TwoMoves = tuple[list[Frame], list[Frame]]
"""Where all groups are at two values of a joint."""
RANGE_VERSION = 23
"""Raised whenever a range changes, so that kept ones are not trusted."""
TURN_DEG = 360.0


def ranges_of(
    job: Job,
    solids: Mapping[str, Solid],
    mechanism: Mechanism,
    *,
    clearance_mm: float = 0.0,
    factor: float = 1.0,
    held: Mapping[str, float] | None = None,
    soft: Sequence[Body] = (),
    only: str = "",
    at_once: bool = True,
    sure: bool = False,
    gaps: bool = True,
    between: tuple[Ranges, Ranges] | None = None,
    known: dict[str | float, tuple[Body, ...]] | None = None,
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
    soft
        Cords and padding at that size, in the drawn frame.
    only
        One joint that is asked for, with those of its closed loop; left out: all.
    at_once
        Whether joints are also tried going together with what keeps its size; what grows is always tried.
    sure
        Whether heads, nuts and washers of usual size, which nobody has stated, are left out.
    gaps
        Whether least gaps of what keeps its size are looked for as well.
    between
        The ranges at a smaller and at a larger size, each of all joints: what keeps its size takes less room the larger
        the device is, so that a stop lies between theirs, and nothing else is gone over.
    known
        Keeps the bodies of the same device between calls.
    """
    held = held or {}
    facts = (
        RANGE_VERSION,
        [(name, solid.sha256, solid.vertices_mm.tobytes()) for name, solid in sorted(solids.items())],
        [(copy, frame.matrix().tobytes()) for copy, frame in mechanism.frames.items()],
        [sorted(group) for group in mechanism.groups],
        (mechanism.joints, mechanism.linkage.ways, mechanism.loops, sorted(mechanism.tied), _bearings(mechanism)),
        # Of parts their size alone: not which file, folder, colour, pose or load, nor a copy that has no place.
        [(part.name, part.scale_percent) for part in job.parts],
        (sorted(mechanism.placed.free), sorted(held.items())),
    )
    bodies, untried = device_bodies(job, solids, mechanism, factor, known)
    bodies = (*(body for body in bodies if not (sure and body.guessed and body.fixed)), *soft)
    grown = [body for body in bodies if not body.fixed]
    turn = _Turn(mechanism=mechanism, clear_mm=clearance_mm / factor, held=held)
    key = key_of(*facts, turn.clear_mm)
    alone = only if held else ""  # of all joints the drawn place is asked again and again, a held one once
    first = kept("mechanism", key_of(key, alone), Ranges, lambda: turn.ranges(grown, untried, key, alone))
    if len(grown) == len(bodies):
        return first
    key = key_of(
        *facts, clearance_mm, factor, [_told(body) for body in bodies if body.fixed], untried, only, at_once, gaps
    )
    with_hardware = replace(turn, known=first, between=between, gaps=gaps)
    return kept("mechanism", key, Ranges, lambda: with_hardware.ranges(bodies, untried, key, only, at_once=at_once))


def _bearings(mechanism: Mechanism) -> list[object]:
    """Return what of all bores is left out of overlaps: the same, whatever hardware sits in them."""
    return [
        (one.copy, one.bore.axis, one.bore.centre_mm, one.bore.drawn_diameter_mm, one.bore.depth_mm, stack.copies)
        for stack in mechanism.stacks
        for one in stack.bores
    ]


def _told(body: Body) -> tuple[object, ...]:
    """Return all that a range hangs on of a body that keeps its size: a bore that is drilled changes none of it."""
    made = body.made or (body.shape.to_mesh64().vert_properties.tobytes(),)
    return body.name, body.group, sorted(body.through), body.guessed, body.soft, sorted(body.ends), made


@dataclass(frozen=True, slots=True, kw_only=True)
class _Turn:
    """Joints turned one by one, with a clearance as drawn, others held.

    What grows with the device is tried once for all sizes; what keeps its size is tried at each, over what that leaves.
    """

    mechanism: Mechanism
    clear_mm: float
    held: Mapping[str, float]
    known: Ranges | None = None
    """What grows with the device allows, where what keeps its size is tried."""
    between: tuple[Ranges, Ranges] | None = None
    gaps: bool = True

    def ranges(
        self, bodies: Sequence[Body], untried: tuple[str, ...], key: str, only: str = "", *, at_once: bool = True
    ) -> Ranges:
        """Try every joint that leads, or the one that is asked for, and say how far those of its loop follow.

        ``key`` is what all of it hangs on.
        """
        asked = frozenset({only}).union(*(loop for loop in self.mechanism.loops if only in loop))
        leads: dict[str, str] = {}
        for joint in self.mechanism.joints:  # those that lead come first
            if joint.name not in leads and joint.name not in self.held and (not only or joint.name in asked):
                leads |= dict.fromkeys({joint.name} | self._looped(joint), joint.name)
        found: dict[str, JointRange] = {}

        def led(name: str) -> dict[str, JointRange]:
            joint = self.mechanism.joint(name)
            return kept("mechanism", key_of(key, name), dict[str, JointRange], lambda: self._led(bodies, joint))

        tried = list(dict.fromkeys(leads.values()))
        ahead(led, tried)
        for name in tried:
            found |= led(name)
        every = tuple(found[joint.name] for joint in self.mechanism.joints if joint.name in found)
        before = None if self.known is None else self.known.together
        if self.held or only or not at_once:
            together = before or ()
        else:
            together = all_together(self.mechanism, bodies, self.clear_mm, before)
        return Ranges(joints=every, untried=untried, together=together)

    def _led(self, bodies: Sequence[Body], joint: MovingJoint) -> dict[str, JointRange]:
        """Return a joint's range, and those of the joints that a closed loop takes along with it."""
        motion = JointMotion(self.mechanism, joint.name, self.held)
        two = _two_moves(motion)
        down, up, sunk = self._stops(bodies, joint, motion, two)
        sunk = sunk if self.known is None else self.known.of(joint.name).sunk
        begins, ends = (None if stop is None else stop.at_deg for stop in (down, up))
        stops = tuple(stop for stop in (down, up) if stop is not None)
        least = None if self.known is None else self.known.of(joint.name).least_gap
        if joint.needs_deg is not None and self.gaps:
            needs = joint.needs_deg
            free = (begins is None or begins <= needs[0]) and (ends is None or needs[1] <= ends)
            here = self._least(bodies, joint, motion, two, needs, free=free)
            least = min((one for one in (least, here) if one), key=_gap_mm, default=None)
        free_deg = (begins, ends)
        found = {joint.name: JointRange(joint=joint.name, free_deg=free_deg, stops=stops, least_gap=least, sunk=sunk)}
        looped = self._looped(joint)
        if looped:
            half = TURN_DEG / 2 if joint.kind == "turns" else 0.0
            span = (-half if begins is None else begins - motion.begin, half if ends is None else ends - motion.begin)
            found |= followers(self.mechanism, motion, joint, looped - {joint.name}, span, stops)
        return found

    def _looped(self, joint: MovingJoint) -> frozenset[str]:
        """Return the joints that are not held of all closed loops that a joint is in."""
        loops = (loop for loop in self.mechanism.loops if joint.name in loop)
        return frozenset[str]().union(*loops) - set(self.held)

    def _stops(
        self, bodies: Sequence[Body], joint: MovingJoint, motion: JointMotion, two: TwoMoves | None
    ) -> tuple[Stop | None, Stop | None, tuple[str, ...]]:
        """Return what stops a joint on its way down and up, and two bodies that lie in each other at rest."""
        fixed, turns, clear_mm = self.known is not None, joint.kind == "turns", self.clear_mm
        inner, outer = (None, self.known) if self.between is None else self.between
        before = (None, None) if outer is None else outer.of(joint.name).ends
        far = TURN_DEG if turns else self._far_mm(bodies, joint, two, fixed=fixed)
        low, high = (own_end(motion, joint, way, stop)[0] for way, stop in zip((-far, far), before, strict=True))
        free = known_free(motion, None if inner is None else inner.of(joint.name))
        course = course_of(motion, min(low, 0.0), max(high, 0.0), free)
        margin_mm = clear_mm + MARGIN_MM if clear_mm > 0 else -MARGIN_MM
        meetings = self._meetings(bodies, joint, two, margin_mm, course, fixed=fixed)
        sunk = () if fixed else next((one.names for one in meetings if one.sunk), ())
        up = stop_on(motion, joint, meetings, (free[1], far), clear_mm, before[1], course)
        if up is None and turns and joint.limits_deg is None:
            return None, None, sunk
        back = TURN_DEG - up.at_deg + motion.begin if up is not None and turns else far
        return stop_on(motion, joint, meetings, (free[0], -back), clear_mm, before[0], course), up, sunk

    def _least(
        self,
        bodies: Sequence[Body],
        joint: MovingJoint,
        motion: JointMotion,
        two: TwoMoves | None,
        needs_deg: tuple[float, float],
        *,
        free: bool,
    ) -> LeastGap | None:
        """Return the least gap over what is needed, as far as the linkage goes; ``free``: nothing meets there."""
        asked = (needs_deg[0] - motion.begin, needs_deg[1] - motion.begin)
        low, high = (motion.end(value)[0] if value else 0.0 for value in asked)
        firm = [body for body in bodies if not body.soft]
        course = course_of(motion, min(low, 0.0), max(high, 0.0))
        near = self._meetings(firm, joint, two, SEARCH_MM, course, fixed=self.known is not None)
        return least_gap(near, motion, (low, high), free=free)

    def _meetings(
        self,
        bodies: Sequence[Body],
        joint: MovingJoint,
        two: TwoMoves | None,
        margin_mm: float,
        course: Course,
        *,
        fixed: bool,
    ) -> tuple[Meeting, ...]:
        """Return what may meet on a course; nothing where the linkage cannot move at all."""
        return () if two is None else meetings_of(self.mechanism, bodies, joint, two, margin_mm, course, fixed=fixed)

    def _far_mm(self, bodies: Sequence[Body], joint: MovingJoint, two: TwoMoves | None, *, fixed: bool) -> float:
        """Return how far a sliding joint must go until everything is past each other."""
        if two is None:
            return 1.0
        asides, along = loose_groups(self.mechanism, joint), np.abs(np.asarray(joint.axis))
        pairs = may_meet(bodies, moving_pairs(*two), asides, fixed=fixed)
        return (
            2.0 * max((float(np.ptp(body.box_mm, axis=0) @ along) for pair in pairs for body in pair), default=0.0)
            + 1.0
        )


def _two_moves(motion: JointMotion) -> TwoMoves | None:
    """Return where all groups are at rest and a little farther; None where the linkage cannot move at all."""
    for step in (1.0, -1.0, 0.05, -0.05):
        try:
            return motion(0.0), motion(step)
        except LockedError:
            continue
    return None


def _gap_mm(least: LeastGap) -> float:
    """Return a least gap's length."""
    return least.gap_mm
