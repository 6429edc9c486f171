"""How far the joints of a closed loop are taken along while one of them goes over its range."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.range.joint_motion import GRID, JointMotion
from planner.mechanism.range.joint_range import JointRange, Stop

TURN_DEG = 360.0


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
    found = {}
    for name in names:
        low, high = min(values[name]), max(values[name])
        turns = mechanism.joint(name).kind == "turns" and high - low >= TURN_DEG - 1e-6
        found[name] = JointRange(
            joint=name, free_deg=(None, None) if turns else (low, high), stops=stops, follows=joint.name
        )
    return found
