"""The most that bores on a driven joint's pin take while a cord holds a load at the tip: over range and friction."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from planner.job import Job, part_of
from planner.mechanism.cord.vectors import dot, flat
from planner.mechanism.cord_effects.cord_on_joint import Leg, StrungCord
from planner.mechanism.cord_effects.tip_loads import held_pulls, holding_cords, kept_n
from planner.mechanism.force.chain_pull import Ends
from planner.mechanism.force.driven_joint import DrivenJoint
from planner.mechanism.force.loop_balance import LoopBalance
from planner.mechanism.force.pull_range import Levels
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.movement.move_records import NO_PULL_N
from planner.mesh import Solid

BoreLoads = dict[tuple[str, str], float]
"""Newtons by part and bore."""


def held_pins(
    job: Job, solids: Mapping[str, Solid], strung: Mapping[str, StrungCord | str], load_n: float
) -> BoreLoads:
    """Return the greatest force across the pin of every joint that a cord drives, for each bore on it, as drawn.

    At every place of the range, with the least friction, as expected and with the most, the cord pulls as hard as
    holds the load at the hardest joint, or at those that no stop holds. How the bores on one pin share it is not asked:
    each takes the whole. Cords whose tip or elastic is not known are left out, and places where no pull holds the load.
    """
    found: BoreLoads = {}
    for one, joints, friction in holding_cords(job, solids, strung):
        pulls = held_pulls(joints, load_n, friction, kept_n(job, one))
        for leg, joint in zip(one.legs, joints, strict=True):
            for pin, force_n in _pin_forces(one, leg, joint, friction, pulls, load_n):
                for copy, bore in pin.bores:
                    at = part_of(copy), bore
                    found[at] = max(found.get(at, 0.0), force_n)
    return found


def _pin_forces(
    one: StrungCord,
    leg: Leg,
    joint: DrivenJoint,
    friction: Levels,
    pulls: Sequence[Sequence[Ends]],
    load_n: float,
) -> Iterator[tuple[MovingJoint, float]]:
    """Yield the force across the pin of each joint, at every place and level of friction at which a pull holds."""
    for level, over in zip(friction, pulls, strict=True):
        for k, pull_n in ((k, pull_n) for k, ends in enumerate(over) for pull_n in dict.fromkeys(ends)):
            if pull_n >= NO_PULL_N:
                continue
            balance = joint.balance(k, level, weighs=level is friction[2])
            if isinstance(balance, LoopBalance):
                carried = balance.pin_forces_n(pull_n, load_n, level.pin_ratio)
                for bearing, force in zip(balance.bearings, carried, strict=True):
                    across = flat(force, bearing.axis)
                    for pin in one.mechanism.joints:
                        if bearing.pin and (pin.pin, part_of(pin.parts[1])) == (bearing.pin, bearing.part):
                            yield pin, math.sqrt(dot(across, across))
            else:
                across = flat(balance.pin_force_n(pull_n, load_n), joint.axis)
                yield leg.joint, math.sqrt(dot(across, across))
