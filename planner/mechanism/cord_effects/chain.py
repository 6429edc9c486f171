"""The joints between what stands and a copy of a device, and what each of them carries."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

import networkx as nx

from planner.job import Cord
from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.placed_stop import stand
from planner.mechanism.cord.taut import Taut, taut
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism

Ends = tuple[float, float]
Free = tuple[float | None, float | None]
"""How far a joint goes before something stops it, one way and the other; None where nothing does."""
TRIED = 5.0
"""A joint of no known range is tried so many degrees, or mm, to either side."""
UNTOLD = "what its pull does to that is not worked out"
BESIDE_MM = 0.05
"""What moves a cord by less does not move it: a pulley's bore is found to some hundredths of a mm beside its groove."""


def chain_to(mechanism: Mechanism, copy: str) -> tuple[MovingJoint, ...]:
    """Return the joints between the largest body of a device, which stands, and a copy, the nearest to it last."""
    graph, way = _way_to(mechanism, copy)
    return tuple(graph.edges[a, b]["joint"] for a, b in pairwise(way))


def beside_words(
    mechanism: Mechanism,
    cord: Cord,
    stops: Sequence[PathStop],
    chain: Sequence[MovingJoint],
    free: Mapping[str, Free],
) -> str:
    """Say that a cord begins on what moves, or passes a joint that it is not asked about; empty where it does neither.

    Nobody says then how it runs from the hand to where it begins, or where that joint stands: its pull may turn it, and
    its travel and its arms change as it turns.

    Parameters
    ----------
    stops
        Its way, settled.
    chain
        The joints that it is asked about; what goes along with one of them in a closed loop is asked about, too.
    free
        How far each joint goes, by name.
    """
    first = stops[0].copy
    for joint in chain_to(mechanism, first)[::-1]:
        if _moved_mm(mechanism, cord, stops, joint, free)[0] > BESIDE_MM:
            return f"{cord.name} begins on {first}, which {joint.name} moves: {UNTOLD}"
    asked = {one.name for one in chain}
    asked |= {name for loop in mechanism.loops if asked & set(loop) for name in loop}
    for copy in dict.fromkeys(stop.copy for stop in stops):
        for joint in chain_to(mechanism, copy)[::-1]:
            if joint.name not in asked and _moved_mm(mechanism, cord, stops, joint, free)[1] > BESIDE_MM:
                return f"{cord.name} passes {copy}, which {joint.name} moves: {UNTOLD}"
    return ""


def _moved_mm(
    mechanism: Mechanism, cord: Cord, stops: Sequence[PathStop], joint: MovingJoint, free: Mapping[str, Free]
) -> tuple[float, float]:
    """Return how far a cord's beginning goes, and how much its length changes, as a joint goes over its range."""
    ends, ways = ends_of(joint, free.get(joint.name, (None, None))), list[Taut]()
    for value in (0.0, *((-TRIED, TRIED) if isinstance(ends, str) else ends)):
        try:
            ways.append(taut(stand(stops, mechanism.frames_at({joint.name: value}), 1.0, cord.diameter_mm)))
        except LockedError:
            return math.inf, math.inf
    begins, long = [way.contacts[0].comes_mm for way in ways], [way.length_mm for way in ways]
    return max(math.dist(begins[0], one) for one in begins), max(long) - min(long)


def ends_of(joint: MovingJoint, free: Free) -> Ends | str:
    """Return the range that a cord is asked over: what the joint ought to reach, else what is free."""
    if joint.needs_deg is not None and joint.needs_deg[0] < joint.needs_deg[1]:
        return joint.needs_deg
    low, high = free
    if low is None or high is None or low >= high:
        return f"how far {joint.name} must go is not stated, and nothing stops it: state its needs_deg"
    return low, high


def beyond_each(mechanism: Mechanism, copy: str) -> Iterator[tuple[MovingJoint, str, frozenset[str]]]:
    """Yield the joints from a copy back to what stands: each with the copy that carries it, and all that it carries.

    A joint of a closed loop carries nothing alone: it is left out.
    """
    graph, way = _way_to(mechanism, copy)
    for near, far in reversed(list(pairwise(way))):
        joint: MovingJoint = graph.edges[near, far]["joint"]
        rest = graph.copy()
        rest.remove_edge(near, far)
        bodies = nx.node_connected_component(rest, far)
        if near not in bodies:
            stands = next(part for part in joint.parts if part in mechanism.groups[near])
            yield joint, stands, frozenset(one for body in bodies for one in mechanism.groups[body])


def _way_to(mechanism: Mechanism, copy: str) -> tuple[nx.Graph[int], list[int]]:
    """Return bodies with the joints between them, and the bodies from what stands to a copy; none where none lead."""
    number = {one: n for n, group in enumerate(mechanism.groups) for one in group}
    graph: nx.Graph[int] = nx.Graph()
    for joint in mechanism.joints:
        one, other = (number[part] for part in joint.parts)
        graph.add_edge(one, other, joint=joint)
    stands = _standing(mechanism)
    if number.get(copy) not in graph or stands not in graph or not nx.has_path(graph, stands, number[copy]):
        return graph, []
    return graph, nx.shortest_path(graph, stands, number[copy])


def _standing(mechanism: Mechanism) -> int:
    """Return the number of the body that stands: of those that no joint moves, the one with the most joints on it.

    In a ring where a joint moves each of them it is the one that the linkage lets stand: the first.
    """
    number = {one: n for n, group in enumerate(mechanism.groups) for one in group}
    moved = {number[joint.parts[1]] for joint in mechanism.joints}
    stands = [number[joint.parts[0]] for joint in mechanism.joints]
    roots = [n for n in stands if n not in moved] or [0]
    return max(dict.fromkeys(roots), key=roots.count)
