"""What several cords of one table ask of one hand: their pulls together, and the grip of a pull that can be kept up."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.job import Cord, Job, part_of
from planner.mechanism.cord_effects.cord_on_joint import Leg, StrungCord
from planner.mechanism.force.chain_pull import chain_grips, chain_pulls, under_one_load
from planner.mechanism.force.driven_joint import DrivenJoint
from planner.mechanism.force.equaliser import hand_pull_n, one_stops_words
from planner.mechanism.force.loop_balance import LoopBalance
from planner.mechanism.force.pull_range import Levels, PullRange, pull_over
from planner.mechanism.force.together.asked_alone import Gripping, JointAsk, Turned, asked_alone
from planner.mechanism.movement.move_records import NO_PULL_N


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pulled:
    """One joint that a cord of a table pulls: the cord on its way, the leg about the joint, and all that acts on it."""

    way: StrungCord
    leg: Leg
    joint: DrivenJoint


Point = tuple[float, float, float, float]
"""Angle, then the pull with the least friction, as expected, and with the most."""
Kept = tuple[float, float, float, float, float]
"""The pull that can be kept up, then its grip: see :func:`kept_grip`."""


def fingers_of(job: Job, one: StrungCord) -> int:
    """Return how many copies the cords of a table move: cords beyond that lie side by side on one copy."""
    return max(1, min(one.cord.count, job.part(part_of(one.driven)).count))


def hand_curve(cord: Cord, fingers: int, pulled: Sequence[Pulled], pulls: Sequence[PullRange]) -> tuple[Point, ...]:
    """Return the pull at the hand over the first joint's range: of each finger what its hardest joint needs.

    All fingers go from open to closed together. At the low end, a joint that may rest on a stop asks for nothing where
    another joint of its finger turns. A finger whose own way is not known is taken as the hardest known one.
    """
    groups, angles = _fingers(pulled, pulls), pulls[0].angles_deg
    stops = [[one.joint.on_stop for one in pulled if one.way.driven == driven] for driven in groups]
    low = [chain_pulls(mine, stop, 0) for mine, stop in zip(groups.values(), stops, strict=True)]
    return tuple(
        (
            angles[k],
            _hand_n(cord, fingers, [ends[k][0] for ends in low]),
            _hand_n(cord, fingers, [max(one.expected_n[k] for one in mine) for mine in groups.values()]),
            _hand_n(cord, fingers, [max(one.high_n[k] for one in mine) for mine in groups.values()]),
        )
        for k in range(min(len(one.angles_deg) for one in pulls))
    )


def each_curve(
    pulled: Sequence[Pulled], pulls: Sequence[PullRange]
) -> tuple[tuple[str, tuple[tuple[float, float], ...]], ...]:
    """Return for each of several fingers the pull of its own cord as expected, over the first joint's range."""
    groups, angles = _fingers(pulled, pulls), pulls[0].angles_deg
    if len(groups) == 1:
        return ()
    return tuple(
        (driven, tuple((angle, max(one.expected_n[k] for one in mine)) for k, angle in enumerate(angles)))
        for driven, mine in groups.items()
        if min(len(one.angles_deg) for one in mine) >= len(angles)
    )


def _fingers(pulled: Sequence[Pulled], pulls: Sequence[PullRange]) -> dict[str, list[PullRange]]:
    """Return the pulls of all joints by the copy that grips, each from the first one's open end to its closed one."""
    groups: dict[str, list[PullRange]] = {}
    for one, pull in zip(pulled, pulls, strict=True):
        groups.setdefault(one.way.driven, []).append(pull if _alike(pulled[0], one) else _turned(pull))
    return groups


def _alike(first: Pulled, other: Pulled) -> bool:
    """Return whether two runs lead to their closed end in the same order."""
    mine, theirs = first.joint.pull.run, other.joint.pull.run
    return (mine.closed == 0) == (theirs.closed == 0)


def _turned(pull: PullRange) -> PullRange:
    """Return a pull with its places in the other order."""
    return PullRange(
        angles_deg=pull.angles_deg[::-1],
        low_n=pull.low_n[::-1],
        expected_n=pull.expected_n[::-1],
        high_n=pull.high_n[::-1],
    )


def _hand_n(cord: Cord, fingers: int, pulls_n: Sequence[float]) -> float:
    """Return the pull of all fingers together; at most what stands for no pull at all."""
    more = [max(pulls_n)] * (fingers - len(pulls_n))
    return min(hand_pull_n(cord.equaliser, [*pulls_n, *more]), NO_PULL_N)


def kept_grip(
    job: Job, cord: Cord, fingers: int, joints: Sequence[DrivenJoint], at: Levels, share: float = 1.0
) -> Kept | None:
    """Return the pull that can be kept up, and the grip that it builds up where that is least over the range.

    The joint of a finger that lets go first decides. With the most friction, as expected, and with the least, where
    stops may hold joints, too; and last the hardest grip of all, with the least friction where it grips most: parts are
    judged by that. Over a dead point nothing bounds it: of the other places the hardest counts, and :func:`locks_words`
    says so.
    None where the greatest pull is not measured. ``share`` of the pull goes to these cords: the rest to others that the
    hand draws at once.
    """
    if job.use.pull_n is None:
        return None
    kept = job.limits.cord_share.value * job.use.pull_n
    each = share * kept / hand_pull_n(cord.equaliser, [1.0] * fingers)
    chains = [[joint for joint in joints if joint.tip == tip] for tip in dict.fromkeys(joint.tip for joint in joints)]
    over = [place for chain in chains for place in chain_grips(chain, each, at)]
    least_friction, expected, most_friction = (max(0.0, min(place[k][k == 0] for place in over)) for k in range(3))
    if math.isinf(least_friction):
        return None  # beyond its dead point all along: it holds whatever presses
    loaded = [place for chain in chains for place in chain_grips(under_one_load(chain), each, at)]
    hardest = max((place[0][1] for place in loaded if math.isfinite(place[0][1])), default=least_friction)
    return kept, most_friction, expected, least_friction, max(hardest, least_friction)


def locks_words(joints: Sequence[DrivenJoint], at: Levels) -> str:
    """Say that a joint of a closed loop passes its dead point, where any grip is held; empty where none does."""
    for joint in joints:
        for k, angle in enumerate(joint.pull.run.angles_deg if joint.loops else ()):
            balance = joint.balance(k, at[0])
            if isinstance(balance, LoopBalance) and balance.smooth.grip_mm <= 0.0:
                unit = " mm" if joint.pull.run.slides else "°"
                return f"at {angle:.0f}{unit} it is at or past its dead point, where nothing bounds how hard it presses"
    return ""


def shared_words(cord: Cord, fingers: int, joints: Sequence[DrivenJoint], hand_n: float, at: Levels) -> str:
    """Say what several fingers of a table do where one of them touches first."""
    if fingers < 2 or hand_n >= NO_PULL_N:
        return ""
    return one_stops_words(cord.equaliser, hand_n, [hold_n(joints, at)] * fingers)


def hold_n(joints: Sequence[DrivenJoint], at: Levels) -> float:
    """Return the pull that goes on closing without a grip, where that is most, with friction as expected."""
    return max(pull_over(joint, 0.0, at).most_n[1] for joint in joints)


def tips_of(pulled: Sequence[Pulled]) -> dict[str, Gripping]:
    """Return where the cords of a table grip, by the copy that each drives, with what is one body with it."""
    found = {}
    for one in pulled:
        copy, at_mm = one.joint.tip
        body = next((group for group in one.way.mechanism.groups if copy in group), frozenset({copy}))
        found[copy] = Gripping(body=body, copy=copy, at_mm=at_mm, way=one.joint.tip_way)
    return found


def turned_by(pulled: Sequence[Pulled]) -> list[Turned]:
    """Return every joint that the cords of a table turn."""
    return [Turned(name=one.leg.joint.name, driven=one.way.driven, way=id(one.way), joint=one.joint) for one in pulled]


def alone_asks(
    turned: Sequence[Turned], own: Mapping[str, Gripping], at: Levels, tips: Sequence[Gripping], grip_n: float
) -> list[JointAsk]:
    """Return what the cords of a table alone need at every joint, where all tips that hang on it grip."""
    every: dict[tuple[int, str], JointAsk] = {}
    for one in turned:
        key, ask = (one.way, one.name), asked_alone(one, own[one.driven], tips, grip_n, at)
        every[key] = every[key].harder(ask) if key in every else ask
    return list(every.values())
