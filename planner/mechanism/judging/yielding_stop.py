"""What stops a joint may give way: another joint between the two that meet, which stood as drawn, may go aside."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

import networkx as nx

from planner.job import Job
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.range.free_range import ranges_of
from planner.mesh import Solid

ASIDE_DEG = (-90.0, 90.0)
"""Where a joint that nobody speaks of and nothing stops is tried."""


def gives_way(
    job: Job,
    solids: Mapping[str, Solid],
    mechanism: Mechanism,
    joint: MovingJoint,
    met: Sequence[str],
    side: int,
    needs_deg: float,
) -> str:
    """Return a question where a joint reaches its need once another between what meets has gone aside; else nothing.

    ``met`` are the two that meet, ``side`` is 0 for the lower end, ``needs_deg`` what it ought to reach as drawn, in mm
    where it slides. The others are tried at both ends of what they ought to reach, or of what is free.
    """
    sense = 1.0 if side else -1.0
    device = _up_to(mechanism, joint, needs_deg)
    for other in _between(mechanism, joint, met):
        for value in _ends(job, solids, mechanism, other):
            try:
                free = ranges_of(job, solids, device, held={other.name: value}, only=joint.name, at_once=False)
            except LockedError:
                continue
            end = free.of(joint.name).free_deg[side]
            if end is None or sense * (end - needs_deg) >= 0.0:
                at = f"{value:.0f}{' mm' if other.kind == 'slides' else '°'}"
                return f"May {other.name} go to {at} while {joint.name} goes? Then it gets there."
    return ""


def _up_to(mechanism: Mechanism, joint: MovingJoint, needs_deg: float) -> Mechanism:
    """Return the device with a joint that goes from the drawn place to its need and no farther: no more is asked."""
    low, high = joint.limits_deg or (-math.inf, math.inf)
    limits = max(low, min(needs_deg, 0.0)), min(high, max(needs_deg, 0.0))
    near = replace(joint, needs_deg=None, limits_deg=limits)
    return replace(mechanism, joints=tuple(near if one.name == joint.name else one for one in mechanism.joints))


def _between(mechanism: Mechanism, joint: MovingJoint, met: Sequence[str]) -> Iterator[MovingJoint]:
    """Yield the other joints on the way from one of the two that meet to the other, outside closed loops."""
    number = {copy: n for n, group in enumerate(mechanism.groups) for copy in group}
    if len(met) != len(("one", "other")) or not all(name in number for name in met):
        return
    looped = {name for loop in mechanism.loops for name in loop}
    graph: nx.Graph[int] = nx.Graph()
    for one in mechanism.joints:
        graph.add_edge(*(number[copy] for copy in one.parts), joint=one)
    ends = [number[name] for name in met]
    if ends[0] not in graph or ends[1] not in graph or not nx.has_path(graph, *ends):
        return
    for a, b in pairwise(nx.shortest_path(graph, *ends)):
        found = graph.edges[a, b]["joint"]
        if found.name != joint.name and found.name not in looped:
            yield found


def _ends(job: Job, solids: Mapping[str, Solid], mechanism: Mechanism, joint: MovingJoint) -> list[float]:
    """Return where a joint is tried aside."""
    if joint.needs_deg is not None:
        ends: Sequence[float | None] = joint.needs_deg
    else:
        ends = ranges_of(job, solids, mechanism, only=joint.name, at_once=False).of(joint.name).free_deg
    tried = [end for end in ends if end] if any(ends) else list(ASIDE_DEG)
    return [max(min(end, ASIDE_DEG[1]), ASIDE_DEG[0]) if joint.kind == "turns" else end for end in tried]
