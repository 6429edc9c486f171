"""What ``[[joint]]`` states, copy by copy: a statement about two parts holds for their other copies, too."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from planner.job import Job, copy_name, part_of
from planner.job import Joint as StatedJoint
from planner.mechanism.joints.bore_stacks import BoreStack
from planner.mechanism.places.frame import Frame
from planner.mesh import Solid

NEAR_MM = 5.0
"""Copies this near to each other are those that a statement about their parts means; common practice, no source."""
BEYOND_MM = 0.01
MOVES = ("turns", "slides", "fixed")
LOOSE = ("tied", "strapped")
Pair = tuple[str, str]


def stated_joints(
    job: Job, solids: Mapping[str, Solid], frames: Mapping[str, Frame], stacks: tuple[BoreStack, ...]
) -> dict[Pair, StatedJoint]:
    """Return what is stated of every two copies, the one that stands first.

    Where two statements speak of the same copies, how they move stands before how they are held.
    """
    found: dict[Pair, StatedJoint] = {}
    literal = {frozenset(joint.copies) for joint in job.joints if joint.how in MOVES}
    for joint in sorted(job.joints, key=lambda joint: joint.how not in MOVES):
        for pair in _pairs(job, solids, frames, stacks, joint):
            owned = pair != joint.copies and joint.how in MOVES and frozenset(pair) in literal
            if not owned and pair not in found and pair[::-1] not in found:
                found[pair] = joint
    return found


def _pairs(
    job: Job,
    solids: Mapping[str, Solid],
    frames: Mapping[str, Frame],
    stacks: tuple[BoreStack, ...],
    joint: StatedJoint,
) -> list[Pair]:
    """Return the copies that a statement speaks of; those that it names where no copies are near each other."""
    one, other = joint.between
    few, many = job.part(one).count, job.part(other).count
    if few == many == 1 or "#" in "".join(joint.copies):
        return [joint.copies]
    near = [
        (distance, pair)
        for pair in _every(one, few, other, many)
        if (distance := distance_mm(solids, frames, *pair)) <= NEAR_MM or _share(stacks, pair)
    ]
    taken: list[Pair] = []
    for _, pair in sorted(near):
        if not any(_outdone(pair, mine, few, many) for mine in taken):
            taken.append(pair)
    return sorted(taken) or [joint.copies]


def _every(one: str, few: int, other: str, many: int) -> Iterator[Pair]:
    """Yield every copy of one part with every copy of another."""
    for n in range(1, few + 1):
        for m in range(1, many + 1):
            if (one, n) != (other, m):
                yield copy_name(one, n), copy_name(other, m)


def _outdone(pair: Pair, nearer: Pair, few: int, many: int) -> bool:
    """Return whether a nearer pair uses up the copy that this one needs: that of the part with more copies."""
    return (many >= few and nearer[1] == pair[1]) or (few >= many and nearer[0] == pair[0])


def _share(stacks: tuple[BoreStack, ...], pair: Pair) -> bool:
    """Return whether one axis goes through both copies."""
    return any(set(pair) <= set(stack.copies) for stack in stacks)


def distance_mm(solids: Mapping[str, Solid], frames: Mapping[str, Frame], one: str, other: str) -> float:
    """Return how far two copies stand apart; endless where it is more than what matters, or a place is not known."""
    if one not in frames or other not in frames:
        return float("inf")
    mine, theirs = solids[part_of(one)].manifold, solids[part_of(other)].manifold
    if mine is None or theirs is None:
        return float("inf")
    a, b = mine.transform(frames[one].matrix()), theirs.transform(frames[other].matrix())
    low, high = np.array(a.bounding_box()), np.array(b.bounding_box())
    between = np.maximum(low[:3] - high[3:], high[:3] - low[3:])
    if float(between.max()) > NEAR_MM:
        return float("inf")
    gap = float(a.min_gap(b, NEAR_MM + BEYOND_MM))
    return gap if gap < NEAR_MM + BEYOND_MM else float("inf")
