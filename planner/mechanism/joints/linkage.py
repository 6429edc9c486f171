"""Where bodies go when joints move: along a tree of joints, with what closes loops solved for."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

import networkx as nx
import numpy as np
from numpy.typing import NDArray

from planner.mechanism.joints.closed_loops import ClosedLoops
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.joints.rigid_groups import RigidGroups
from planner.mechanism.places.frame import Frame

STEP = 4.0
"""Degrees or mm that a driven joint goes in one step of the continuation."""
FINEST = STEP / 2**9
"""A loop that cannot follow a step as small as this is locked."""
JUMP_DEG = 25.0
"""A follower that goes this far in one step has changed to the loop's other form: the step is halved."""
Floats = NDArray[np.float64]


class LockedError(ValueError):
    """A closed loop cannot be brought to the angle asked for."""


@dataclass(frozen=True, kw_only=True)
class Linkage:
    """Bodies and the joints between them.

    Parameters
    ----------
    groups
        Copies that move as one, the standing body first.
    joints
        Those of the tree first, then one for each loop that it closes.
    ways
        Bodies of the tree in order from the roots: body, the one that it hangs on (-1: a root), number of the joint
        between them, and 1.0 or -1.0, the sense in which the joint's value moves it.
    ends
        Of every joint: the body that stands, the one that moves.
    loops
        Names of the joints of each closed loop.
    """

    groups: tuple[frozenset[str], ...]
    joints: tuple[MovingJoint, ...]
    ways: tuple[tuple[int, int, int, float], ...]
    ends: tuple[tuple[int, int], ...]
    loops: tuple[tuple[str, ...], ...]

    @cached_property
    def closing(self) -> ClosedLoops:
        """The same as what closes its loops."""
        return ClosedLoops(self.joints, self.ways, self.ends)

    @property
    def tree_n(self) -> int:
        """How many joints the tree has."""
        return len(self.joints) - len(self.loops)

    def number(self, name: str) -> int:
        """Return a joint's number."""
        return next(n for n, joint in enumerate(self.joints) if joint.name == name)

    def moves_at(self, values: Mapping[str, float]) -> list[Frame]:
        """Return how far each body has moved from its drawn place; LockedError where a loop cannot follow."""
        return self.moves(self.solved(values))

    def values_at(self, values: Mapping[str, float]) -> dict[str, float]:
        """Return every joint's value; LockedError where a loop cannot follow."""
        return self.values_of(self.solved(values))

    def values_of(self, q: Floats, before: Mapping[str, float] | None = None) -> dict[str, float]:
        """Return every joint's value with the tree's joints at ``q``, turns counted on from ``before``."""
        found = {joint.name: float(q[n]) for n, joint in enumerate(self.joints[: self.tree_n])}
        bodies = self.closing.bodies(q) if self.loops else []
        for n in range(self.tree_n, len(self.joints)):
            name, value = self.joints[n].name, self.closing.value(n, bodies)
            if before is not None and self.joints[n].kind == "turns":
                value += 360.0 * round((before[name] - value) / 360.0)
            found[name] = value
        return found

    def moves(self, q: Floats) -> list[Frame]:
        """Return how far each body has moved with the tree's joints at ``q``."""
        return [Frame(turn=body[:3, :3], shift_mm=body[:3, 3]) for body in self.closing.bodies(q)]

    def solved(self, values: Mapping[str, float], start: Floats | None = None, ahead: Floats | None = None) -> Floats:
        """Return the tree's joints with some joints at given values, going there in steps from ``start`` (drawn: 0).

        ``ahead`` is by how much they are expected to change: where bars lie in line, it keeps the chain in its form.
        """
        q = np.zeros(self.tree_n) if start is None else start.copy()
        here = self.values_of(q)
        given = {self.number(name): value for name, value in values.items()}
        begun = {n: here[self.joints[n].name] for n in given}
        far = max((abs(given[n] - begun[n]) for n in given), default=0.0)
        if not self.loops:
            for n, value in given.items():
                q[n] = value
            return q
        done, step = 0.0, min(1.0, STEP / far) if far > STEP else 1.0
        slope = np.zeros_like(q) if ahead is None else ahead
        still = self._still(given)
        while done < 1.0:
            until = min(1.0, done + step)
            target = {n: begun[n] + until * (given[n] - begun[n]) for n in given}
            found = self.closing.closed(target, q + slope * (until - done), still)
            if found is None or float(np.abs(found - q).max(initial=0.0)) > JUMP_DEG:
                step, slope = step / 2, np.zeros_like(q)
                if step * max(far, 1e-9) < FINEST:
                    raise LockedError("the loop cannot follow so far")
                continue
            slope, q, done = (found - q) / (until - done), found, until
            step = min(2 * step, STEP / far if far > STEP else 1.0)
        return q

    def _still(self, given: Container[int]) -> frozenset[int]:
        """Return the tree's joints that no given one takes along: those in no loop with it, nor in one linked to that.

        A loop beside it has a freedom of its own, which nothing holds: rounding would carry it away step by step.
        """
        moved = {n for linked in self._linked if any(n in given for n in linked) for n in linked}
        return frozenset(n for n in range(self.tree_n) if n not in moved)

    @cached_property
    def _linked(self) -> list[set[int]]:
        """The joints of loops that share some, together."""
        graph: nx.Graph[int] = nx.Graph()
        for loop in self.loops:
            nx.add_path(graph, [self.number(name) for name in loop])
        return [set(part) for part in nx.connected_components(graph)]


def linkage_of(rigid: RigidGroups, first: Sequence[str] = ()) -> Linkage:
    """Return the tree of bodies and joints; those named in ``first`` never close a loop if others can.

    A pin in a slot, which has two freedoms, closes one where it can; else it is a turn and a slide, with a body between
    them of which nothing is drawn.

    The root of each tree is the body that only stands: no joint moves it, as far as there is one.
    """
    rank = {name: n for n, name in enumerate(first)}
    order = sorted(rigid.joints, key=lambda joint: (joint.about is not None, rank.get(joint.name, len(rank))))
    number = {copy: n for n, group in enumerate(rigid.groups) for copy in group}
    forest, groups, tree, closing = _forest(rigid, order, number)
    roots = _roots(rigid, groups, forest, number)
    old = [body for root in roots for body in nx.bfs_tree(forest, root)]
    new = {body: n for n, body in enumerate(old)}
    ways: list[tuple[int, int, int, float]] = []
    for root in roots:
        ways.append((new[root], -1, -1, 0.0))
        for base, body in nx.bfs_edges(forest, root):
            edge = forest.edges[base, body]
            ways.append((new[body], new[base], tree.index(edge["joint"]), 1.0 if edge["ends"][1] == body else -1.0))
    loops = []
    for joint in closing:
        path = nx.shortest_path(forest, number[joint.parts[0]], number[joint.parts[1]])
        along = [forest.edges[a, b]["joint"].name for a, b in pairwise(path)]
        loops.append((*along, joint.name))
    ends = {tree.index(edge["joint"]): edge["ends"] for _, _, edge in forest.edges(data=True)}
    every = [*(ends[n] for n in range(len(tree))), *((number[j.parts[0]], number[j.parts[1]]) for j in closing)]
    return Linkage(
        groups=tuple(groups[body] for body in old),
        joints=(*tree, *closing),
        ways=tuple(ways),
        ends=tuple((new[base], new[other]) for base, other in every),
        loops=tuple(loops),
    )


def _forest(
    rigid: RigidGroups, order: Sequence[MovingJoint], number: Mapping[str, int]
) -> tuple[nx.Graph[int], list[frozenset[str]], list[MovingJoint], list[MovingJoint]]:
    """Return the trees of bodies, all bodies, the trees' joints, and those that close loops."""
    forest: nx.Graph[int] = nx.Graph()
    forest.add_nodes_from(range(len(rigid.groups)))
    groups = list(rigid.groups)
    tree: list[MovingJoint] = []
    closing: list[MovingJoint] = []
    for joint in order:
        base, other = (number[copy] for copy in joint.parts)
        if nx.has_path(forest, base, other):
            closing.append(joint)
            continue
        steps = (joint,) if joint.about is None else _in_slot(joint)
        bodies = (base, *range(len(groups), len(groups) + len(steps) - 1), other)
        groups += [frozenset()] * (len(steps) - 1)
        for step, between in zip(steps, pairwise(bodies), strict=True):
            forest.add_edge(*between, joint=step, ends=between)
        tree += reversed(steps)  # what turns leads: it has no dead points
    return forest, groups, tree, closing


def _in_slot(joint: MovingJoint) -> tuple[MovingJoint, MovingJoint]:
    """Return a pin in a slot as a slide along the slot and a turn about the pin, which has what is stated of both."""
    assert joint.about is not None
    slides = replace(joint, about=None, rest_deg=None, needs_deg=None, limits_deg=None)
    return slides, replace(joint, name=f"{joint.name}, turning", kind="turns", axis=joint.about, about=None)


def _roots(
    rigid: RigidGroups, groups: Sequence[frozenset[str]], forest: nx.Graph[int], number: Mapping[str, int]
) -> list[int]:
    """Return the body of every tree that stands, moved by the fewest joints; that of the tree of most copies first."""
    moved = [number[joint.parts[1]] for joint in rigid.joints]
    stands = [number[joint.parts[0]] for joint in rigid.joints]
    trees = sorted(
        nx.connected_components(forest), key=lambda tree: (-sum(len(groups[body]) for body in tree), min(tree))
    )
    drawn = [[body for body in tree if groups[body]] for tree in trees]
    return [min(tree, key=lambda body: (moved.count(body), -stands.count(body), body)) for tree in drawn]
