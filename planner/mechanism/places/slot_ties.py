"""Pins that lie in a slot as drawn: they show that two meshes share a frame, as pins in bores of both do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

import networkx as nx

from planner.assembly import Claim, in_slot
from planner.job import Job
from planner.mesh import Solid
from planner.survey import Survey

APART_MM = 5.0
"""As far as a washer or a spacer may keep parts apart that a pin ties."""
OVERLAP_SHARE = 0.005
"""More of the smaller body than this inside the other, and they are not drawn in place; a press fit takes less."""
Group = frozenset[str]


def slotted_groups(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    groups: Sequence[Group],
) -> tuple[Group, ...]:
    """Return groups of parts drawn in place, grown by the parts of which a pin in a slot shows the same.

    Groups that would put one body inside another stay as they were.
    """
    whole = [name for name, solid in solids.items() if solid.manifold is not None and _stands(job, name)]
    graph: nx.Graph[str] = nx.Graph()
    for group in groups:
        nx.add_path(graph, sorted(group))
    ties = (pair for pair in _ties(job, surveys, claims) if set(pair) <= set(whole))
    graph.add_edges_from(pair for pair in ties if _near(solids, *pair))
    found: list[Group] = []
    for names in nx.connected_components(graph):
        inside = any(_overlap(solids[a], solids[b]) for a, b in combinations(sorted(names), 2))
        found += [group for group in groups if group <= names] if inside else [frozenset(names)]
    return tuple(found)


def _stands(job: Job, name: str) -> bool:
    """Return whether a part has one copy, at the job's own scale."""
    part = job.part(name)
    return part.count == 1 and part.scale_percent is None


def _ties(job: Job, surveys: Mapping[str, Survey], claims: Sequence[Claim]) -> Iterator[tuple[str, str]]:
    """Yield every part with a bore and every part with a slot, as drawn, that one piece of hardware joins."""
    for hardware in job.hardware:
        mine = [claim for claim in claims if claim.hardware.name == hardware.name]
        bored = {claim.part for claim in mine}
        for claim in mine:
            at, axis = claim.bore.centre_mm, claim.bore.axis
            for name in hardware.joins:
                if name not in bored and any(in_slot(slot, at, axis) for slot in surveys[name].slots):
                    yield claim.part, name


def _near(solids: Mapping[str, Solid], one: str, other: str) -> bool:
    """Return whether two bodies come as near as what a pin ties."""
    a, b = solids[one].manifold, solids[other].manifold
    return a is not None and b is not None and float(a.min_gap(b, APART_MM + 1.0)) <= APART_MM


def _overlap(one: Solid, other: Solid) -> bool:
    """Return whether more of the smaller body than a press fit takes lies in the other."""
    if one.manifold is None or other.manifold is None:
        return True
    shared = float((one.manifold ^ other.manifold).volume())
    return shared > OVERLAP_SHARE * min(float(one.manifold.volume()), float(other.manifold.volume()))
