"""Which parts lie between a tip and what holds the device on a body, and which of their joints lead where."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import networkx as nx

from planner.assembly import Claim
from planner.job import Job
from planner.strength.loads.part_load import Support
from planner.strength.loads.passed_on import joined, neighbours

SLOT = "slot"
"""What a support of webbing is called."""
BODY = ""
"""What stands for the body: no part has an empty name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """What holds a part, by where it leads.

    Parameters
    ----------
    brings
        Toward the tip: the load comes in there.
    holds
        Toward the body; where nothing is known to be worn, all that leads elsewhere.
    shared
        Whether other parts lie beside it, so that it may take less than all.
    """

    brings: tuple[Support, ...]
    holds: tuple[Support, ...]
    shared: bool


@dataclass(frozen=True, kw_only=True)
class WayToBody:
    """How a device's parts are joined, from a tip to what is worn.

    Parameters
    ----------
    tip
        The part that the load acts on.
    worn
        The parts that lie on a body: those with a skin side or padding, else those with straps. Where there are none,
        nothing tells what holds the device.
    """

    tip: str
    worn: frozenset[str]
    graph: nx.Graph[str]
    claims: Sequence[Claim]

    @cached_property
    def between(self) -> frozenset[str]:
        """The parts on any way from the tip to the body; all that are joined to the tip where none is known.

        A part beside the way, such as a bracket that carries a pulley alone, takes nothing of a load at the tip: what
        lies beyond it is held by nothing (statics). A way goes through each part once, so that these are the parts of
        one block of the graph with an edge from the body back to the tip.
        """
        if self.tip not in self.graph:
            return frozenset()
        joined_to_tip = nx.node_connected_component(self.graph, self.tip)
        worn = self.worn & joined_to_tip
        if not worn:
            return frozenset(joined_to_tip)
        looped = self.graph.copy()
        looped.add_edges_from((BODY, name) for name in (*sorted(worn), self.tip))
        blocks = [block for block in nx.biconnected_components(looped) if {BODY, self.tip} <= block]
        return frozenset(set.union(set(), *blocks) - {BODY})

    @property
    def known(self) -> bool:
        """Whether anything that is joined to the tip is worn."""
        return bool(self.worn & self.between)

    def split(self, part: str, supports: Sequence[Support]) -> Split | None:
        """Return how the supports of a part between tip and body are split; None where it is not, or nothing leads on.

        Of parts beside each other, those supports bring the load that lead to the tip by fewer joints than to the body.
        """
        if part not in self.between or part == self.tip:
            return None
        without = self.graph.copy()
        without.remove_node(part)
        toward = nx.node_connected_component(without, self.tip)
        leads = [(one, neighbours(self.claims, part, one) & {*without}) for one in supports]
        worn = self.worn - {part}
        if part in self.worn or not worn & toward:
            brings = [one for one, to in leads if to & toward]
            rest = [(one, to) for one, to in leads if one not in brings]
            if part in self.worn:
                return _split(brings, [one for one, _ in rest if one.over == SLOT], shared=False)
            if not self.known:
                return _split(brings, [one for one, _ in rest], shared=False)
            beyond = set[str]().union(*(nx.node_connected_component(without, name) for name in worn if name in without))
            return _split(brings, [one for one, to in rest if to & beyond], shared=False)
        far = {name: self._steps(without, {self.tip}).get(name, len(without)) for name in without}
        near = self._steps(without, worn)
        mine = [(one, min((far[name] - near.get(name, len(without)) for name in to), default=0)) for one, to in leads]
        on_way = [(one, more) for (one, more), (_, to) in zip(mine, leads, strict=True) if to & self.between]
        return _split(
            [one for one, more in on_way if more < 0], [one for one, more in on_way if more >= 0], shared=True
        )

    def _steps(self, graph: nx.Graph[str], names: set[str] | frozenset[str]) -> dict[str, int]:
        """Return by how many joints each part lies from the nearest of some."""
        starts = {name for name in names if name in graph}
        found = nx.multi_source_dijkstra_path_length(graph, starts, weight=lambda *_: 1)
        return {name: int(steps) for name, steps in found.items()}


def _split(brings: Sequence[Support], holds: Sequence[Support], *, shared: bool) -> Split | None:
    """Return a split; None where nothing brings the load in."""
    return Split(brings=tuple(brings), holds=tuple(holds), shared=shared) if brings else None


def way_to_body(job: Job, claims: Sequence[Claim], tip: str) -> WayToBody:
    """Return the way from a tip to what a job says is worn."""
    padded = {one.part for one in job.paddings}
    skin = {one.name for one in job.parts if one.skin_side or one.skin_toward is not None or one.name in padded}
    strapped = {one.part for one in job.straps}
    graph = joined(job, claims)
    reached = nx.node_connected_component(graph, tip) if tip in graph else set[str]()
    return WayToBody(tip=tip, worn=frozenset(skin & reached or strapped & reached), graph=graph, claims=claims)
