"""Copies that are fixed to each other move as one body; joints between the same two bodies about one line are one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import networkx as nx

from planner.mechanism.joints.moving_joint import MovingJoint, one_line
from planner.phrases import listed


@dataclass(frozen=True, slots=True, kw_only=True)
class RigidGroups:
    """Copies by the body that they move with, and the joints between the bodies.

    ``spare`` are joints that add nothing to another one on the same line.
    """

    groups: tuple[frozenset[str], ...]
    joints: tuple[MovingJoint, ...]
    spare: tuple[MovingJoint, ...]
    notes: tuple[str, ...]

    def of(self, copy: str) -> int:
        """Return the number of a copy's body."""
        return next(n for n, group in enumerate(self.groups) if copy in group)


def rigid_groups(copies: Iterable[str], joints: Sequence[MovingJoint]) -> RigidGroups:
    """Return the bodies of a device, and what moves between them.

    Two bodies that turn on each other about two lines hold each other fast, and are one.
    """
    graph: nx.Graph[str] = nx.Graph()
    graph.add_nodes_from(copies)
    graph.add_edges_from(joint.parts for joint in joints if joint.kind == "fixed")
    notes: list[str] = []
    while True:
        groups = tuple(frozenset(group) for group in nx.connected_components(graph))
        number = {copy: n for n, group in enumerate(groups) for copy in group}
        between: dict[frozenset[int], list[MovingJoint]] = {}
        for joint in joints:
            ends = frozenset(number[copy] for copy in joint.parts)
            if joint.kind != "fixed" and len(ends) > 1:
                between.setdefault(ends, []).append(joint)
        locked = [mine for mine in between.values() if not all(one_line(mine[0], other) for other in mine[1:])]
        if not locked:
            break
        for mine in locked:
            notes.append(f"{listed(joint.name for joint in mine)} hold the same bodies on two lines: fixed")
            graph.add_edge(*mine[0].parts)
    return RigidGroups(
        groups=groups,
        joints=tuple(mine[0] for mine in between.values()),
        spare=tuple(other for mine in between.values() for other in mine[1:]),
        notes=tuple(notes),
    )
