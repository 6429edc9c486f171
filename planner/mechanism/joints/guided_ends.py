"""Slides that nobody states: a pin's slot between guides, and a chain's loose end that runs in a groove."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise, product

import networkx as nx
import numpy as np

from planner.finding import Vec3
from planner.job import Job, part_of
from planner.mechanism.joints.bore_stacks import BoreStack
from planner.mechanism.joints.moving_joint import PARALLEL_COS, MovingJoint
from planner.mechanism.joints.rigid_groups import rigid_groups
from planner.mechanism.joints.slide_ways import GUIDED_MM, Pair, guided_way, slide_axis
from planner.mechanism.joints.stated_joints import distance_mm
from planner.mechanism.places.frame import Frame
from planner.mesh import Solid
from planner.survey import Survey

SQUARE_COS = 0.014
"""Ways as near to a right angle are square to each other."""
TURNS_N = 3
"""A loop of one slide and this many parallel turns has one freedom (Grübler: 3 (4 - 1) - 2 x 4 = 1); of fewer, none."""


ENDS_N = 2
"""Sliders at both ends of a rod: with its two turns a loop of one freedom."""


def guided_in_slot(
    pair: Pair,
    stacks: Sequence[BoreStack],
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
) -> bool:
    """Return whether faces on both sides let a copy with one pin in a slot go along the slot, and turn nowhere."""
    slot = slide_axis(pair, stacks, solids, surveys, frames)
    pins = [stack for stack in stacks if pair[1] in stack.copies and any(one[0] == pair[0] for one in stack.slots)]
    if isinstance(slot, str) or not pins:
        return False
    way = guided_way(pair, pins[0].bores[0].bore.axis, solids, frames)
    return way is not None and _cos(slot[0], way[0]) > PARALLEL_COS


def guided_ends(
    job: Job, joints: Sequence[MovingJoint], solids: Mapping[str, Solid], frames: Mapping[str, Frame]
) -> Iterator[tuple[Pair, Vec3, Vec3]]:
    """Yield two copies, the first stands, and the direction and a point of the slide that closes a chain between them.

    A body at the end of a chain of at least three parallel turns, between faces of the chain's other end on both
    sides, can only slide along them: without that the chain could not move at all.
    """
    rigid = rigid_groups(frames, joints)
    chain: nx.Graph[int] = nx.Graph()
    for joint in rigid.joints:
        chain.add_edge(*(rigid.of(copy) for copy in joint.parts), joint=joint)
    order = [part.name for part in job.parts]
    done: set[frozenset[int]] = set()
    for end in [body for body in chain if chain.degree(body) == 1]:
        for other, way in nx.single_source_shortest_path(chain, end).items():
            turns = [chain.edges[a, b]["joint"] for a, b in pairwise(way)]
            if len(turns) < TURNS_N or frozenset((end, other)) in done or not _parallel(turns):
                continue
            done.add(frozenset((end, other)))
            for one, two in product(sorted(rigid.groups[end]), sorted(rigid.groups[other])):
                pair = (one, two) if order.index(part_of(one)) < order.index(part_of(two)) else (two, one)
                found = _guide(pair, turns[0], solids, frames)
                if found is not None:
                    yield pair, *found
                    break


def guided_strays(
    job: Job,
    joints: Sequence[MovingJoint],
    open_: Sequence[Pair],
    solids: Mapping[str, Solid],
    frames: Mapping[str, Frame],
) -> Iterator[tuple[Pair, Vec3, Vec3]]:
    """Yield two copies, the first stands, and the direction and a point of a slide of what no joint reaches.

    A yoke whose slot takes a crank's pin (``open_``), between faces of another body of the crank's chain; and a plate
    between whose faces both ends of a chain of two parallel turns lie: a trammel's, with its sliders and its rod.
    """
    rigid = rigid_groups(frames, joints)
    chain: nx.Graph[int] = nx.Graph()
    for joint in rigid.joints:
        chain.add_edge(*(rigid.of(copy) for copy in joint.parts), joint=joint)
    order = [part.name for part in job.parts]

    def guides(one: int, other: int, turn: MovingJoint) -> Iterator[tuple[Pair, Vec3, Vec3]]:
        for pair in product(sorted(rigid.groups[one]), sorted(rigid.groups[other])):
            first, second = sorted(pair, key=lambda copy: order.index(part_of(copy)))
            found = _guide((first, second), turn, solids, frames)
            if found is not None:
                yield (first, second), *found
                return

    for pair in open_:
        stray, mine = sorted((rigid.of(copy) for copy in pair), key=lambda body: body in chain)
        if stray in chain or mine not in chain:
            continue
        turn = next(iter(chain.edges(mine, data=True)))[2]["joint"]
        for body in sorted(nx.node_connected_component(chain, mine) - {mine}):
            yield from guides(body, stray, turn)
    for bodies in list(nx.connected_components(chain)):
        ends = [body for body in bodies if chain.degree(body) == 1]
        turns = [edge["joint"] for _, _, edge in chain.subgraph(bodies).edges(data=True)]
        if len(ends) == ENDS_N and len(turns) == ENDS_N and _parallel(turns):
            for stray in set(range(len(rigid.groups))) - set(chain):
                found = [one for end in ends for one in guides(stray, end, turns[0])]
                if len(found) == ENDS_N:
                    yield from found


def _parallel(turns: Sequence[MovingJoint]) -> bool:
    """Return whether joints all turn, about parallel axes."""
    return all(joint.kind == "turns" and _cos(joint.axis, turns[0].axis) > PARALLEL_COS for joint in turns)


def _guide(
    pair: Pair, turn: MovingJoint, solids: Mapping[str, Solid], frames: Mapping[str, Frame]
) -> tuple[Vec3, Vec3] | None:
    """Return the way of one copy along the other, square to an axis; None where they are apart or nothing guides."""
    if distance_mm(solids, frames, *pair) > GUIDED_MM:
        return None
    found = guided_way(pair, turn.axis, solids, frames)
    return found if found is not None and _cos(found[0], turn.axis) < SQUARE_COS else None


def _cos(one: Vec3, other: Vec3) -> float:
    """Return the cosine between two lines."""
    return abs(float(np.asarray(one) @ np.asarray(other)))
