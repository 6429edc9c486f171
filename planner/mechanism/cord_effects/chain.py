"""The joints between what stands and a copy of a device, and what each of them carries."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import networkx as nx

from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism


def chain_to(mechanism: Mechanism, copy: str) -> tuple[MovingJoint, ...]:
    """Return the joints between the largest body of a device, which stands, and a copy, the nearest to it last."""
    graph, way = _way_to(mechanism, copy)
    return tuple(graph.edges[a, b]["joint"] for a, b in pairwise(way))


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
    """Return the number of the body that stands: of those that no joint moves, the one with the most joints on it."""
    number = {one: n for n, group in enumerate(mechanism.groups) for one in group}
    moved = {number[joint.parts[1]] for joint in mechanism.joints}
    stands = [number[joint.parts[0]] for joint in mechanism.joints]
    roots = [n for n in stands if n not in moved] or stands or [0]
    return max(dict.fromkeys(roots), key=roots.count)
