"""One pin in a slot of which nobody says whether it slides: a question where something that must move hangs on it."""

from __future__ import annotations

from collections.abc import Sequence

import networkx as nx

from planner.job import Job, part_of
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.joints.stated_joints import MOVES, Pair

Told = tuple[tuple[str, ...], tuple[str, ...]]
"""What could not be told, and what is worth a note."""


def slot_questions(job: Job, joints: Sequence[MovingJoint], pairs: Sequence[Pair]) -> Told:
    """Return a sentence for every pair of copies with one pin in a slot: unsolved where it matters, else a note.

    It matters where a cord drives, or a statement wants to reach, anything that the pair is joined to: one pin may
    slide, turn or both, and each of them lets the rest go differently. Two copies that others hold fast on each other
    do not move, whatever their slot would let them do.
    """
    fixed: nx.Graph[str] = nx.Graph([joint.parts for joint in joints if joint.kind == "fixed"])
    every: nx.Graph[str] = nx.Graph([*(joint.parts for joint in joints), *pairs])
    asked = _asked(job)
    unsolved, notes = [], []
    for owner, other in pairs:
        if owner in fixed and other in fixed and nx.has_path(fixed, owner, other):
            continue
        said = f"a pin of {other} lies in a slot of {owner}"
        if any(part_of(copy) in asked for copy in nx.node_connected_component(every, owner)):
            cure = 'write a [[joint]] between them with how = "slides", "turns" or "fixed"'
            unsolved.append(f"{owner} to {other}: {said}, and nobody says whether it slides or turns there: {cure}")
        else:
            notes.append(f"{said}: say with [[joint]] whether it slides")
    return tuple(unsolved), tuple(notes)


def _asked(job: Job) -> set[str]:
    """Return the parts that somebody wants to move: driven by a cord, or with a range that ought to be reached."""
    found = {part for joint in job.joints if joint.how in MOVES and joint.needs_deg for part in joint.between}
    for cord in job.cords:
        if cord.pulls:
            found |= {part_of(cord.drives)} if cord.drives else {part_of(point.copy) for point in cord.path[-1:]}
    return found
