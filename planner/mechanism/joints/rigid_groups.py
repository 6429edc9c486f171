"""Copies that are fixed to each other move as one body; joints between the same two bodies about one line are one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import networkx as nx

from planner.mechanism.joints.moving_joint import MovingJoint, one_line
from planner.phrases import listed

PINS_N = 2
"""Pins in slots of one plane that leave one freedom: 3 - 2 = 1."""


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

    Two bodies that turn on each other about two lines hold each other fast, and are one. Two pins in slots that run
    different ways leave one freedom: each takes one of the three that a body has in a plane.
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
        locked = [mine for mine in between.values() if not _moves(mine)]
        if not locked:
            break
        for mine in locked:
            notes.append(f"{listed(joint.name for joint in mine)} hold the same bodies on two lines: fixed")
            graph.add_edge(*mine[0].parts)
    kept = {id(mine): len(mine) if _crossed(mine) else 1 for mine in between.values()}
    return RigidGroups(
        groups=groups,
        joints=tuple(one for mine in between.values() for one in mine[: kept[id(mine)]]),
        spare=tuple(other for mine in between.values() for other in mine[kept[id(mine)] :]),
        notes=tuple(notes),
    )


def _moves(mine: Sequence[MovingJoint]) -> bool:
    """Return whether two bodies still move on each other with all their joints."""
    return _crossed(mine) or all(one_line(mine[0], other) for other in mine[1:])


def _crossed(mine: Sequence[MovingJoint]) -> bool:
    """Return whether what joins two bodies is two pins in slots that run different ways."""
    return len(mine) == PINS_N and all(one.about is not None for one in mine) and not one_line(*mine)
