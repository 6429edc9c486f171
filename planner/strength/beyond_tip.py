"""Parts that carry what a cord drives: what a weight at the tip does to them through the joints is not judged."""

from __future__ import annotations

from collections.abc import Sequence

import networkx as nx

from planner.assembly import Claim
from planner.job import Job, part_of
from planner.mechanism import Movement
from planner.strength.loads.passed_on import joined

SAID = (
    "what a weight that hangs at the tip of {0} does to it, through all that lies between, is not judged: hang one "
    "there on the bench"
)


def beyond_tips(job: Job, claims: Sequence[Claim], movement: Movement | None, load_n: float) -> dict[str, str]:
    """Return the parts that are joined to one that grips by a cord, with what is not judged of them.

    A grip is held between the parts that the cord reaches, and its figures are of that; a weight bends all that
    carries it. The gripping part itself is screened under as much at its tip.
    """
    gripping = {} if movement is None else movement.tips(load_n)
    if movement is None or not gripping:
        return {}
    tips = dict.fromkeys(part_of(copy) for copy in gripping)
    graph = joined(job, claims)
    found = dict[str, str]()
    for tip in tips:
        for part in nx.node_connected_component(graph, tip) - {*tips} if tip in graph else ():
            found.setdefault(part, SAID.format(tip))
    return found
