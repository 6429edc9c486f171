"""An order of joints in which a driver gets at every screw, as far as places are known and such an order exists."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import networkx as nx

from planner.assembly import Ways
from planner.output.bench.assembly_joints import Joint

HARDWARE = "hardware: "


def ways_to(joint: Joint, ways: Mapping[str, Ways]) -> Ways | None:
    """Return the ways to the screws of a joint; None where it has none."""
    return ways.get(joint.name.removeprefix(HARDWARE)) if joint.name.startswith(HARDWARE) else None


def there(joints: Sequence[Joint], index: int) -> frozenset[str]:
    """Return the parts that hang together with those of a joint when its turn comes, its own among them."""
    graph: nx.Graph[str] = nx.Graph()
    for joint in joints[: index + 1]:
        nx.add_path(graph, joint.parts)
        graph.add_nodes_from(joint.parts)
    return frozenset(nx.node_connected_component(graph, joints[index].parts[0]))


def blocked(joints: Sequence[Joint], ways: Mapping[str, Ways]) -> dict[str, frozenset[str]]:
    """Return, by name, every joint whose screws are in the order's way, and the parts that stand there."""
    found = {}
    for index, joint in enumerate(joints):
        way = ways_to(joint, ways)
        standing = way.blocked_by(there(joints, index)) if way else frozenset()
        if standing:
            found[joint.name] = standing
    return found


def with_free_access(joints: Sequence[Joint], ways: Mapping[str, Ways]) -> list[Joint]:
    """Return the joints in an order with fewer blocked screws, else as they were.

    A blocked joint is tried at every earlier turn, the latest first, together with the nuts that go into its parts;
    an order counts only where each joint still touches what is there. Where that frees nothing, the blocked joint is
    made apart, as a piece of its own, and what joins that piece to the rest waits for it. Every accepted move leaves
    fewer blocked, so that it ends.
    """
    order = list(joints)
    while stuck := blocked(order, ways):
        tries = (one for moves in (_earlier, _apart) for name in stuck for one in moves(order, name))
        better = next((one for one in tries if len(blocked(one, ways)) < len(stuck)), None)
        if better is None:
            return order
        order = better
    return order


def _earlier(order: list[Joint], name: str) -> list[list[Joint]]:
    """Return the orders in which a joint, with the nuts of its parts, comes earlier; the latest of them first."""
    at = next(index for index, joint in enumerate(order) if joint.name == name)
    moved = order[at]
    found = []
    for to in range(at - 1, -1, -1):
        nuts = [j for j in order[to:at] if j.check == "seat" and set(j.parts) & set(moved.parts)]
        taken = [*nuts, moved]
        rest = [joint for joint in order if joint not in taken]
        tried = [*rest[:to], *taken, *rest[to:]]
        if grows(tried) or not grows(order):
            found.append(tried)
    return found


def _apart(order: list[Joint], name: str) -> list[list[Joint]]:
    """Return the orders in which one joint waits that ties the parts of a blocked one to what is there."""
    at = next(index for index, joint in enumerate(order) if joint.name == name)
    mine = set(order[at].parts)
    ties = [
        joint for joint in order[:at] if len(joint.parts) > 1 and mine & set(joint.parts) and mine - set(joint.parts)
    ]
    return [[*(j for j in order[: at + 1] if j is not tie), tie, *order[at + 1 :]] for tie in ties]


def grows(joints: Sequence[Joint]) -> bool:
    """Return whether every joint of two parts or more touches one that came before it."""
    seen: set[str] = set()
    for joint in joints:
        if len(joint.parts) > 1:
            if seen and not seen & set(joint.parts):
                return False
            seen |= set(joint.parts)
    return True
