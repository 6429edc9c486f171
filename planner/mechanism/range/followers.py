"""How far the joints of a closed loop are taken along while one of them goes over its range."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np

from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.range.joint_motion import GRID, JointMotion
from planner.mechanism.range.joint_range import JointRange, Stop

TURN_DEG = 360.0
SHORT = 0.05
"""So far short of a dead point, in degrees or mm, followers tell which of them is quickest there."""
BESIDE = 0.5
"""What leads is as far on one side of a dead point as on the other, so much (degrees or mm of a follower) beside it."""
BEYOND = 6.0
"""No farther than this beyond the last place that was found is a dead point looked for."""
HALVED_N = 16


def followers(
    mechanism: Mechanism,
    motion: JointMotion,
    joint: MovingJoint,
    names: Iterable[str],
    span: tuple[float, float],
    stops: tuple[Stop, ...],
) -> dict[str, JointRange]:
    """Return the least and the greatest value of every other joint of a loop over a span of the one that leads."""
    names = tuple(names)
    values = {name: [0.0] for name in names}
    for end in span:
        before = motion.values(0.0)
        for value in np.linspace(0.0, end, 2 + int(abs(end) / GRID)):
            before = motion.linkage.values_of(motion.state(float(value)), before)
            for name in names:
                values[name].append(before[name])
        if any(stop.what == "locked" and abs(stop.at_deg - motion.begin - end) < SHORT for stop in stops):
            last = dead_point(motion, joint.name, names, end)
            for name in names:
                values[name].append(before[name] + last[name])
    found = {}
    for name in names:
        low, high = min(values[name]), max(values[name])
        turns = mechanism.joint(name).kind == "turns" and high - low >= TURN_DEG - 1e-6
        found[name] = JointRange(
            joint=name, free_deg=(None, None) if turns else (low, high), stops=stops, follows=joint.name
        )
    return found


def dead_point(motion: JointMotion, joint: str, names: Sequence[str], end_deg: float) -> dict[str, float]:
    """Return how much farther followers go at the dead point just beyond where a joint that leads was found to end.

    There they still move while what leads stands still, as a root does at 0: a hundredth of a degree short of it may be
    a whole one of theirs. So the quickest of them leads instead, and the dead point lies where the joint comes as far
    on both sides of it. No farther where none is found.
    """
    way, still = math.copysign(1.0, end_deg), dict.fromkeys(names, 0.0)
    last = motion.state(end_deg)
    here = motion.linkage.values_of(last)
    short = motion.linkage.values_of(motion.state(end_deg - way * min(SHORT, abs(end_deg))), here)
    quick = max(names, key=lambda name: abs(here[name] - short[name]), default="")
    if not quick or here[quick] == short[quick]:
        return still
    sense = math.copysign(1.0, here[quick] - short[quick])

    def at(farther: float) -> dict[str, float]:
        asked = {**motion.held, quick: here[quick] + sense * farther}
        return motion.linkage.values_of(motion.linkage.solved(asked, last), here)

    def rises(farther: float) -> bool:
        return way * (at(farther + BESIDE)[joint] - at(farther - BESIDE)[joint]) > 0.0

    try:
        free, over = 0.0, BEYOND
        if not rises(free) or rises(over):
            return still
        for _ in range(HALVED_N):
            middle = (free + over) / 2.0
            free, over = (middle, over) if rises(middle) else (free, middle)
        there = at(free)
    except LockedError:
        return still
    return {name: there[name] - here[name] for name in names}
