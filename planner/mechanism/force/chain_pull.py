"""One cord over a chain of joints: the pull that the hardest of them needs, the grip that the easiest of them lets go.

In a chain on one cord the tension T and the force F at the tip turn every joint i: T r_i = F d_i, with r_i the cord's
arm about it and d_i the force's (serial chain, principle of virtual work; textbook, from memory). Where the joints do
not ask for the same T, the hardest decides, and the easier ones close until what is gripped or a stop holds them. A
joint that rests on the stop at its open end needs no cord: then the others decide.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from planner.mechanism.cord.vectors import unit
from planner.mechanism.force.driven_joint import DrivenJoint
from planner.mechanism.force.point_load import work_n_mm
from planner.mechanism.force.pull_range import Levels, PullRange, grip_over

Ends = tuple[float, float]
"""The least and the most of a number that a stop may decide."""


def pull_ends(pulls_n: Sequence[float], on_stop: Sequence[bool]) -> Ends:
    """Return the least and the most pull of a chain whose joints need so much each.

    >>> pull_ends([22.0, 84.0], [False, True]), pull_ends([22.0, 84.0], [True, False])
    ((22.0, 84.0), (84.0, 84.0))
    """
    free = [pull for pull, stops in zip(pulls_n, on_stop, strict=True) if not stops]
    return max(free) if free else min(pulls_n), max(pulls_n)


def grip_ends(grips_n: Sequence[float], on_stop: Sequence[bool]) -> Ends:
    """Return the least and the most grip of a chain whose joints each let go at so much.

    >>> grip_ends([11.0, 3.0], [False, True]), grip_ends([11.0, 3.0], [False, False])
    ((3.0, 11.0), (3.0, 3.0))
    """
    free = [grip for grip, stops in zip(grips_n, on_stop, strict=True) if not stops]
    return min(grips_n), min(free) if free else max(grips_n)


def under_one_load(joints: Sequence[DrivenJoint]) -> list[DrivenJoint]:
    """Return a cord's joints under one load at its tip: across the nearest joint's arm, for all of them alike.

    Alone, each joint is asked under the load that turns it most.
    """
    first = joints[0]
    if len(joints) < 2:
        return list(joints)
    pushes = tuple(
        unit(motion.here[first.tip[0]].inverse().direction(first.grip_load(k).force_n))
        for k, motion in enumerate(first.motions)
    )
    return [first, *(replace(joint, pushes=pushes) for joint in joints[1:])]


def chain_grips(joints: Sequence[DrivenJoint], pull_n: float, at: Levels) -> list[tuple[Ends, Ends, Ends]]:
    """Return at every place the grip that one cord's pull builds up: least and most, at every level of friction."""
    over = [grip_over(joint, pull_n, at) for joint in joints]
    stops = [joint.on_stop for joint in joints]
    found = []
    for k in range(min(len(one.angles_deg) for one in over)):
        helped = [_helps(joint, k) for joint in joints]
        low, expected, high = (
            grip_ends([math.inf if helps else n for n, helps in zip(each, helped, strict=True)], stops)
            for each in zip(*((one.low_n[k], one.expected_n[k], one.high_n[k]) for one in over), strict=True)
        )
        found.append((low, expected, high))
    return found


def _helps(joint: DrivenJoint, k: int) -> bool:
    """Return whether a load that is the same for all joints turns this one as its cord does: then it bounds no grip."""
    if not joint.pushes:
        return False
    return joint.closing * work_n_mm([joint.grip_load(k)], joint.motions[k], joint.factor) >= 0.0


def chain_pulls(pulls: Iterable[PullRange], on_stop: Sequence[bool], level: int) -> list[Ends]:
    """Return at every place the least and the most pull of a chain, at a level of friction (0 to 2)."""
    over = [(one.low_n, one.expected_n, one.high_n)[level] for one in pulls]
    return [pull_ends(each, on_stop) for each in zip(*over, strict=False)]
