"""All joints at once: each may reach what it needs alone, and yet they meet when they go there together."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import product

from planner.finding import Vec3
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.places.frame import Frame
from planner.mechanism.range.axis_shells import Pieces, along, slabs
from planner.mechanism.range.body_pairs import (
    MARGIN_MM,
    across,
    bearing_of,
    loose_groups,
    may_meet,
    meeting_of,
    moving_pairs,
    search_mm,
)
from planner.mechanism.range.boxes_on_way import course_of
from planner.mechanism.range.device_bodies import Body
from planner.mechanism.range.joint_range import Together
from planner.mechanism.range.sweep import first_meeting
from planner.mechanism.range.two_bodies import Meeting

WHOLE = 100.0
"""The way that all go together, in percent of what each needs."""
TRIED_DEG = 1.0
MIXES_MOST = 8
"""So many mixes of low and high ends are all tried: those of three joints that go both ways."""
SAME = 1e-9


def all_together(
    mechanism: Mechanism, bodies: Sequence[Body], clear_mm: float, known: Sequence[Together] | None
) -> tuple[Together, ...]:
    """Return where joints meet that go to ends of their needs together, in proportion.

    Only bodies that two joints move on each other are tried: the rest is told by each joint's own range. A follower of
    a closed loop has no way of its own. Where ``known`` is given, it holds for all that grows with the device.
    """
    leads = [j for j in mechanism.joints if j.needs_deg is not None and not _follows(mechanism, j)]
    if len(leads) < len(("one", "other")):
        return ()
    pairs = _shared(mechanism, bodies, leads, fixed=known is not None)
    cut = _Cut(mechanism=mechanism, lead=leads[0], clear_mm=clear_mm)
    found = []
    for needs in _ways(leads):
        one = _met(cut, pairs, needs)
        both = [each for each in (*(known or ()), one) if each is not None and each.needs == tuple(needs.items())]
        found += [min(both, key=lambda one: one.went)] if both else []
    return tuple(found)


def _ways(leads: Sequence[MovingJoint]) -> list[dict[str, float]]:
    """Return where joints go together: each to an end of what it needs, in every mix of ends where those are few.

    Which ends go together depends on the senses of the axes: two jaws that close may turn against each other. Of many
    joints all go to the ends farther from rest, to the low ones, or to the high ones.
    """
    ends = [[value - (joint.rest_deg or 0.0) for value in joint.needs_deg or ()] for joint in leads]
    far = tuple(int(abs(high) >= abs(low)) for low, high in ends)
    sides = [far] if any(abs(abs(low) - abs(high)) > SAME for low, high in ends) else []
    sides += [tuple(side for _ in leads) for side in (1, 0)]
    apart = [[n for n, value in enumerate(pair) if abs(value) > SAME] or [0] for pair in ends]
    if math.prod(len(some) for some in apart) <= MIXES_MOST:
        sides = list(product(*apart))
    found = []
    for mix in dict.fromkeys(sides):
        needs = {joint.name: joint.needs_deg[n] for joint, n in zip(leads, mix, strict=True) if joint.needs_deg}
        if sum(value != 0.0 for value in needs.values()) >= len(("one", "other")) and needs not in found:
            found.append(needs)
    return found


def _follows(mechanism: Mechanism, joint: MovingJoint) -> bool:
    """Return whether a joint is taken along by another of its closed loop."""
    names = [one.name for one in mechanism.joints]
    return any(joint.name in loop and min(loop, key=names.index) != joint.name for loop in mechanism.loops)


def _shared(
    mechanism: Mechanism, bodies: Sequence[Body], leads: Sequence[MovingJoint], *, fixed: bool
) -> list[tuple[Body, Body]]:
    """Return every two bodies that more than one of the joints moves on each other."""
    drawn = mechanism.linkage.moves_at({})
    counts: Counter[frozenset[int]] = Counter()
    for joint in leads:
        try:
            counts.update(moving_pairs(drawn, mechanism.linkage.moves_at({joint.name: TRIED_DEG})))
        except LockedError:
            counts.update(moving_pairs(drawn, mechanism.linkage.moves_at({joint.name: -TRIED_DEG})))
    shared = {pair for pair, n in counts.items() if n > 1}
    laid = [body for body in bodies if not body.ends]  # a cord between bodies goes along with either
    return list(may_meet(laid, shared, loose_groups(mechanism, leads[0]), fixed=fixed))


@dataclass(frozen=True, kw_only=True, eq=False)  # no slots: what is the same for all pairs is found once
class _Cut:
    """What of two bodies can meet, cut out once for both ways."""

    mechanism: Mechanism
    lead: MovingJoint
    clear_mm: float
    known: dict[tuple[int, int], list[Meeting]] = field(default_factory=dict)

    @cached_property
    def flat(self) -> bool:
        """Whether all joints move bodies across one axis only."""
        return all(across(joint, self.lead) for joint in self.mechanism.joints)

    @cached_property
    def margin_mm(self) -> float:
        """How near bodies may come along the axis to be tried."""
        return self.clear_mm + MARGIN_MM if self.clear_mm > 0 else -MARGIN_MM

    def of(self, a: Body, b: Body) -> list[Meeting]:
        """Return the meetings of two bodies."""
        key = id(a), id(b)
        if key not in self.known:
            frame, bearing = along(self.lead.axis, self.lead.at_mm), bearing_of(self.mechanism, a.name, b.name)
            pieces: Iterable[Pieces] = [(a.shape, b.shape)]
            if self.flat:
                reaches = a.reach_mm(frame), b.reach_mm(frame)
                pieces = slabs(a.shape, b.shape, frame, self.margin_mm, reaches)
            self.known[key] = [meeting_of(a, b, one, other, bearing, self.margin_mm) for one, other in pieces]
        return self.known[key]


def _met(cut: _Cut, pairs: Sequence[tuple[Body, Body]], needs: dict[str, float]) -> Together | None:
    """Return the first meeting on the way to some values; None where all get there."""
    mechanism, clear_mm = cut.mechanism, cut.clear_mm
    states: dict[float, list[Frame]] = {}

    def motion(percent: float) -> list[Frame]:
        if percent not in states:
            share = percent / WHOLE
            states[percent] = mechanism.linkage.moves_at({name: share * value for name, value in needs.items()})
        return states[percent]

    try:
        motion(WHOLE)
        course = course_of(motion, 0.0, WHOLE)
    except LockedError:
        return None  # told by the range of the joint that locks
    end, best = WHOLE, None
    for a, b in pairs:
        if not course.spans((a.group, b.group), a.box_mm, b.box_mm, search_mm(cut.margin_mm)):
            continue
        for meeting in cut.of(a, b):
            met = first_meeting(meeting, motion, (0.0, end), clear_mm, course)
            if met is not None:
                end, best = met[0], (meeting, met[1])
    if best is None:
        return None
    meeting, beyond = best
    at: Vec3 = meeting.place_mm(motion(min(WHOLE, beyond + 1.0)))
    values = tuple((name, value * end / WHOLE) for name, value in needs.items())
    return Together(values=values, needs=tuple(needs.items()), parts=meeting.names, at_mm=at, guessed=meeting.guessed)
