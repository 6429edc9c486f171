"""A cord of a job on the joint that it drives: its settled way and the motion over the range, for any size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import networkx as nx
import numpy as np

from planner.assembly import Claim
from planner.job import Cord, Job, copy_name, number_of, part_of
from planner.mechanism.cord.cord_run import CordRun, run_of
from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.path.resolve_path import resolve_path
from planner.mechanism.cord.path.settled_path import settled
from planner.mechanism.cord.small_moves import Motion, motions_over
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mesh import Solid
from planner.survey import Survey

PLACES_N = 17
"""Places of a range at which a cord is asked; between them its numbers go nearly straight."""

Ends = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # frames do not compare
class StrungCord:
    """A cord on a joint.

    Parameters
    ----------
    cord
        As the job states it.
    joint
        That it drives.
    driven
        The copy that it moves.
    stops
        Its way, settled.
    motions
        Of the device over the joint's range.
    moving
        The copies that move with the joint.
    """

    cord: Cord
    joint: MovingJoint
    driven: str
    stops: tuple[PathStop, ...]
    motions: tuple[Motion, ...]
    moving: frozenset[str]

    def run(self, factor: float) -> CordRun:
        """Return the cord over the range, at a scale."""
        return run_of(self.stops, self.motions, factor, self.cord.diameter_mm)


def strung_cords(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    mechanism: Mechanism,
    free: Mapping[str, tuple[float | None, float | None]],
) -> dict[str, StrungCord | str]:
    """Return every cord that has a path, by its name: strung, or the sentence why it is not."""
    return {
        cord.name: strung_cord(job, solids, surveys, claims, mechanism, cord, free) for cord in job.cords if cord.path
    }


def strung_cord(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    mechanism: Mechanism,
    cord: Cord,
    free: Mapping[str, tuple[float | None, float | None]],
) -> StrungCord | str:
    """Return a cord on its joint, or one sentence why that cannot be told.

    ``free`` is how far each joint goes, by name; it is asked where the job does not say how far it ought to go.
    """
    stops = resolve_path(job, solids, surveys, claims, cord)
    if isinstance(stops, str):
        return stops
    away = sorted({stop.copy for stop in stops if stop.copy not in mechanism.frames})
    if away:
        return f"the place of {', '.join(away)} is not known: give it a [[place]]"
    driven = _driven(cord, stops)
    joint = driving_joint(mechanism, driven)
    if joint is None:
        return f"nothing that moves is known to carry {driven}, which {cord.name} drives"
    if not joint.zero_known:
        return f"the drawn angle of {joint.name} is not known: give one of its parts a [[place]]"
    ends = _ends(joint, free.get(joint.name, (None, None)))
    if isinstance(ends, str):
        return ends
    try:
        motions = motions_over(
            lambda value: mechanism.frames_at({joint.name: value}), _places(joint, ends), slides=joint.kind == "slides"
        )
    except LockedError as locked:
        return f"{joint.name} does not go where it ought to: {locked}"
    poses = [mechanism.frames, motions[0].here, motions[len(motions) // 2].here, motions[-1].here]
    return StrungCord(
        cord=cord,
        joint=joint,
        driven=driven,
        stops=settled(stops, poses, 1.0, cord.diameter_mm),
        motions=motions,
        moving=moving_copies(motions[0]),
    )


def moving_copies(motion: Motion) -> frozenset[str]:
    """Return the copies that a joint moves."""
    return frozenset(
        copy
        for copy, frame in motion.before.items()
        if not (
            np.allclose(frame.turn, motion.after[copy].turn, rtol=0.0, atol=1e-9)
            and np.allclose(frame.shift_mm, motion.after[copy].shift_mm, rtol=0.0, atol=1e-9)
        )
    )


def chain_to(mechanism: Mechanism, copy: str) -> tuple[MovingJoint, ...]:
    """Return the joints between the largest body of a device, which stands, and a copy, the nearest to it last."""
    number = {one: n for n, group in enumerate(mechanism.groups) for one in group}
    graph: nx.Graph[int] = nx.Graph()
    for joint in mechanism.joints:
        one, other = (number[part] for part in joint.parts)
        graph.add_edge(one, other, joint=joint)
    stands = _standing(mechanism)
    if number.get(copy) not in graph or stands not in graph or not nx.has_path(graph, stands, number[copy]):
        return ()
    way = nx.shortest_path(graph, stands, number[copy])
    return tuple(graph.edges[a, b]["joint"] for a, b in pairwise(way))


def driving_joint(mechanism: Mechanism, copy: str) -> MovingJoint | None:
    """Return the joint that a copy moves on: the last of the chain that leads to it."""
    chain = chain_to(mechanism, copy)
    return chain[-1] if chain else None


def _standing(mechanism: Mechanism) -> int:
    """Return the number of the body that stands: of those that no joint moves, the one with the most joints on it."""
    number = {one: n for n, group in enumerate(mechanism.groups) for one in group}
    moved = {number[joint.parts[1]] for joint in mechanism.joints}
    stands = [number[joint.parts[0]] for joint in mechanism.joints]
    roots = [n for n in stands if n not in moved] or stands or [0]
    return max(dict.fromkeys(roots), key=roots.count)


def _driven(cord: Cord, stops: Sequence[PathStop]) -> str:
    """Return the copy that a cord moves: the one that it states, else the one at its end."""
    if not cord.drives:
        return stops[-1].copy
    part, number = part_of(cord.drives), number_of(cord.drives)
    on_way = [stop.copy for stop in stops if part_of(stop.copy) == part]
    return on_way[-1] if on_way and cord.drives == part else copy_name(part, number)


def _ends(joint: MovingJoint, free: tuple[float | None, float | None]) -> Ends | str:
    """Return the range that a cord is asked over: what the joint ought to reach, else what is free."""
    if joint.needs_deg is not None and joint.needs_deg[0] < joint.needs_deg[1]:
        return joint.needs_deg
    low, high = free
    if low is None or high is None or low >= high:
        return f"how far {joint.name} ought to go is not stated, and nothing stops it: state its needs_deg"
    return low, high


def _places(joint: MovingJoint, ends: Ends) -> list[float]:
    """Return the places of a range at which a cord is asked, the rest among them where it lies within."""
    even = {float(value) for value in np.linspace(*ends, PLACES_N)}
    rest = joint.rest_deg
    if rest is not None and ends[0] < rest < ends[1] and min(abs(rest - value) for value in even) > 1e-6:
        even.add(rest)
    return sorted(even)
