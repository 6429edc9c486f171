"""What one cord alone would have to pull at every joint that it turns, for all the tips that hang on that joint."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from planner.finding import Vec3
from planner.mechanism.force.driven_joint import DrivenJoint
from planner.mechanism.force.loop_balance import LoopBalance
from planner.mechanism.force.pull_range import Levels, pull_over

MOST_N = 1e9
"""Stands for no pull at all between places: a line to what is infinite is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gripping:
    """A tip that grips.

    Parameters
    ----------
    body
        The copies that move as one with it: two tips on one body grip the same thing, once.
    copy, at_mm, way
        Where, in the copy's mesh, and which way it is pushed; see :class:`DrivenJoint`.
    """

    body: frozenset[str]
    copy: str
    at_mm: Vec3
    way: Vec3 | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Turned:
    """A joint that a cord of a table turns; ``driven`` is the copy that this cord drives, ``way`` tells ways apart."""

    name: str
    way: int
    driven: str
    joint: DrivenJoint
    known: dict[Gripping, DrivenJoint] = field(default_factory=dict, repr=False)
    """The joint with other tips, which were asked for before."""

    def under(self, tip: Gripping) -> DrivenJoint:
        """Return the joint under the load of a tip."""
        if tip not in self.known:
            self.known[tip] = replace(self.joint, tip=(tip.copy, tip.at_mm), tip_way=tip.way)
        return self.known[tip]


@dataclass(frozen=True, slots=True, kw_only=True)
class JointAsk:
    """What a cord alone needs at one joint, from open to closed.

    Parameters
    ----------
    shares
        Of the way from open to closed, rising from 0 to 1.
    pulls_n
        One for each, with the least friction, as expected, and with the most.
    """

    name: str
    driven: str
    shares: tuple[float, ...]
    pulls_n: tuple[tuple[float, ...], ...]
    on_stop: bool = False

    def harder(self, other: JointAsk) -> JointAsk:
        """Return the greater of both at every place: of one joint with others elsewhere."""
        pairs = zip(self.pulls_n, other.pulls_n, strict=True)
        return replace(self, pulls_n=tuple(tuple(map(max, *pair)) for pair in pairs))

    def at(self, share: float, level: int) -> float:
        """Return the pull at a share of the way, between its neighbours along a line."""
        found = float(np.interp(share, self.shares, self.pulls_n[level]))
        return found if found < MOST_N / 2 else float("inf")


def asked_alone(turned: Turned, tip: Gripping, tips: Sequence[Gripping], grip_n: float, at: Levels) -> JointAsk:
    """Return what a cord needs at a joint with its own tip and all others that move with that joint.

    Every other body that grips weighs on the joint besides: the pulls for each add. What is no grip, an elastic and
    the weight, is in each of them; it is taken out again but once, and counted once more where it helps.
    """
    joint, bodies = turned.joint, {tip.body: [tip]}
    for one in tips:
        if one.copy in joint.moving:
            bodies.setdefault(one.body, []).append(one)
    every = [[pull_over(turned.under(one), grip_n, at) for one in same] for same in bodies.values()]
    alone = [[(one.low_n, one.expected_n, one.high_n) for one in same] for same in every]
    angles = joint.pull.run.angles_deg
    pulls = []
    for level, friction in enumerate(at):
        found = []
        for k in range(len(angles)):
            pull = sum(max(one[level][k] for one in same) for same in alone)
            if len(alone) > 1:
                balance = joint.balance(k, friction, weighs=friction is at[2])
                smooth = balance.smooth if isinstance(balance, LoopBalance) else balance
                if smooth.pull_mm > 0.0:
                    pull += (len(alone) - 1) * smooth.rest_n_mm / smooth.pull_mm
            found.append(min(max(pull, 0.0), MOST_N))
        pulls.append(found)
    order = range(len(angles)) if joint.pull.run.closed else range(len(angles) - 1, -1, -1)
    start, end = angles[order[0]], angles[order[-1]]
    return JointAsk(
        name=turned.name,
        driven=turned.driven,
        shares=tuple((angles[k] - start) / (end - start) for k in order),
        pulls_n=tuple(tuple(level[k] for k in order) for level in pulls),
        on_stop=joint.on_stop,
    )
