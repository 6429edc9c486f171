"""One round pin in a slot between bodies that other joints carry: it slides along the slot and turns in it.

A crank's pin in the slot of a yoke or of a rocker, a rod's end pin in a slot of the frame: one pin alone holds neither
of the two freedoms, and the other joints say what comes of them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import pairwise

import networkx as nx
import numpy as np

from planner.finding import Vec3
from planner.mechanism.joints.bore_stacks import BoreStack
from planner.mechanism.joints.moving_joint import PARALLEL_COS, MovingJoint
from planner.mechanism.joints.rigid_groups import rigid_groups
from planner.mechanism.joints.slide_ways import slot_way
from planner.mechanism.joints.stated_joints import Pair
from planner.mechanism.places.frame import Frame
from planner.survey import Survey

PINS = ("dowel-pin", "binding-post")
CLAMPED = 2
"""A clamped screw in a slot leaves no question; one pin does: it may turn as well as slide, and two only slide."""
SQUARE_COS = 0.014
JOINTS_N = 2
"""A chain of so many joints and the pin keep one freedom (Grübler: 2 - 1 = 1); a chain of fewer is held fast."""


def slotted_counts(stacks: Sequence[BoreStack], stated: Collection[Pair]) -> dict[Pair, int]:
    """Return how many pins of the second copy lie in slots of the first, of copies of which nothing is stated."""
    found: dict[Pair, int] = {}
    for stack in stacks:
        for owner in dict.fromkeys(slot[0] for slot in stack.slots):  # through both cheeks it is one pin
            pair = (owner, stack.copies[0])
            if pair not in stated and pair[::-1] not in stated:
                found[pair] = found.get(pair, 0) + (1 if loose_in_slot(pair, [stack]) else CLAMPED)
    return found


def loose_in_slot(pair: Pair, stacks: Sequence[BoreStack]) -> bool:
    """Return whether the pins of the second copy move in slots of the first: a screw with a plain nut is clamped."""
    return all(
        stack.pin.kind in PINS or stack.pin.nut == "locking" or any(one.turning for one in stack.bores)
        for stack in stacks
        if pair[1] in stack.copies and in_slot_of(stack, pair)
    )


def in_slot_of(stack: BoreStack, pair: Pair) -> bool:
    """Return whether the pin of one of two copies lies in a slot of the other."""
    return any(owner in pair and pair[1 - pair.index(owner)] in stack.copies for owner, _, _, _ in stack.slots)


def slotted_pins(
    pairs: Sequence[Pair],
    joints: Sequence[MovingJoint],
    stacks: Sequence[BoreStack],
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
) -> Iterator[tuple[Pair, BoreStack, Vec3]]:
    """Yield the copies, the first with the slot, the pin's axis and the slot's way, where a flat chain joins the two.

    Nothing is yielded where they share no chain, or one of fewer than two joints, or one that leaves the pin's plane:
    there it is not known what the pin does in its slot.
    """
    rigid = rigid_groups(frames, joints)
    number = {copy: n for n, group in enumerate(rigid.groups) for copy in group}
    chain: nx.Graph[int] = nx.Graph()
    for joint in rigid.joints:
        chain.add_edge(*(number[copy] for copy in joint.parts), joint=joint)
    for pair in pairs:
        one, other = (number[copy] for copy in pair)
        if one == other or one not in chain or other not in chain or not nx.has_path(chain, one, other):
            continue
        way = [chain.edges[a, b]["joint"] for a, b in pairwise(nx.shortest_path(chain, one, other))]
        stack = next(one for one in stacks if pair[1] in one.copies and any(slot[0] == pair[0] for slot in one.slots))
        if len(way) >= JOINTS_N and all(_flat(joint, stack) for joint in way):
            yield pair, stack, slot_way(pair[0], stack, surveys, frames)


def crossed_slots(
    stacks: Sequence[BoreStack], surveys: Mapping[str, Survey], frames: Mapping[str, Frame]
) -> dict[Pair, list[tuple[Pair, BoreStack, Vec3]]]:
    """Return copies with two parallel pins of the second in slots of the first that run different ways.

    It slides along neither: each pin slides and turns, as in a trammel. Given are pins and the ways of their slots.
    """
    found: dict[Pair, list[tuple[Pair, BoreStack, Vec3]]] = {}
    for stack in stacks:
        for owner in dict.fromkeys(slot[0] for slot in stack.slots):
            pair = (owner, stack.copies[0])
            found.setdefault(pair, []).append((pair, stack, slot_way(owner, stack, surveys, frames)))
    return {pair: pins for pair, pins in found.items() if len(pins) == JOINTS_N and _cross(pins)}


def _cross(pins: Sequence[tuple[Pair, BoreStack, Vec3]]) -> bool:
    """Return whether two pins are parallel, and the ways of their slots are not."""
    (_, one, way), (_, other, along) = pins
    axes = abs(float(np.asarray(one.bores[0].bore.axis) @ np.asarray(other.bores[0].bore.axis)))
    return axes > PARALLEL_COS > abs(float(np.asarray(way) @ np.asarray(along)))


def _flat(joint: MovingJoint, stack: BoreStack) -> bool:
    """Return whether a joint moves bodies only across a pin."""
    cos = abs(float(np.asarray(joint.axis) @ np.asarray(stack.bores[0].bore.axis)))
    return cos > PARALLEL_COS if joint.kind == "turns" else cos < SQUARE_COS
