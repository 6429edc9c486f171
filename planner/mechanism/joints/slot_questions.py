"""One pin in a slot of which neither a statement nor a guide says how it moves: a question, never silence."""

from __future__ import annotations

from collections.abc import Sequence

import networkx as nx

from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.joints.stated_joints import Pair


def slot_questions(joints: Sequence[MovingJoint], pairs: Sequence[Pair]) -> tuple[str, ...]:
    """Return a sentence for every pair of copies with one loose pin in a slot: it may slide, turn or both.

    Two copies that others hold fast on each other do not move, whatever their slot would let them do.
    """
    fixed: nx.Graph[str] = nx.Graph([joint.parts for joint in joints if joint.kind == "fixed"])
    unsolved = []
    for owner, other in pairs:
        if owner in fixed and other in fixed and nx.has_path(fixed, owner, other):
            continue
        said = f"a pin of {other} lies in a slot of {owner}"
        held = {copy for joint in joints for copy in joint.parts}
        loose = [copy for copy in (owner, other) if copy not in held]
        why = f"nothing else holds {loose[0]}" if loose else "nobody says whether it slides or turns there"
        unsolved.append(f"{owner} to {other}: {said}, and {why}")
    return tuple(unsolved)
