"""Mating: which parts meet by what, how deep each stack of bores is, and what nothing holds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import networkx as nx

from planner.assembly.claim import Claim, claims_of
from planner.finding import Finding, Guess, Verdict
from planner.job import Hardware, Job
from planner.survey import Survey

THROUGH = ("machine-screw", "wood-screw", "binding-post", "dowel-pin")
"""Hardware that runs through its parts, so that their depths are its stack."""
STACK_OF = "stack of "
"""Begins the note on a stack that the bores tell."""
STACK_SHORT_MM = 1.0
"""A stated stack may be this much shorter than the bores that it goes through."""


def mating_graph(job: Job) -> nx.Graph[str]:
    """Return the graph of a job: a node for each part and each joint, an edge where a joint touches a part.

    Nodes carry ``kind``: part, hardware, gap, joint, cord or strap. Joints are named ``kind: name``.
    """
    graph: nx.Graph[str] = nx.Graph()
    graph.add_nodes_from((part.name for part in job.parts), kind="part")
    joints = [(f"hardware: {h.name}", "hardware", h.joins) for h in job.hardware]
    joints += [(f"gap: {' to '.join(gap.between)}", "gap", gap.between) for gap in job.gaps]
    joints += [(f"joint: {' to '.join(joint.between)}", "joint", joint.between) for joint in job.joints]
    joints += [(f"cord: {cord.name}", "cord", (cord.part,)) for cord in job.cords]
    joints += [(f"strap: {strap.name}", "strap", (strap.part,)) for strap in job.straps]
    for name, kind, parts in joints:
        graph.add_node(name, kind=kind)
        graph.add_edges_from((name, part) for part in parts)
    return graph


def mating_findings(job: Job, claims: Sequence[Claim]) -> list[Finding]:
    """Say which parts nothing joins to the rest, and which stated stacks differ from the bores' own depth."""
    names = {part.name for part in job.parts}
    groups = [sorted(names & group) for group in nx.connected_components(mating_graph(job))]
    found = [_loose(sorted(groups))] if (job.hardware or job.gaps or job.joints) and len(groups) > 1 else []
    for hardware in job.hardware:
        deep = stack_mm(job, hardware, claims)
        if deep is not None and hardware.stack_mm is not None:
            found += _stack(hardware, deep)
    return found


def stack_mm(job: Job, hardware: Hardware, claims: Sequence[Claim]) -> float | None:
    """Return the depth of bores that one piece of hardware goes through, as drawn; None where none is settled.

    All bores of all printed copies, shared among the pieces: gaps, washers and heads are not in it.
    """
    counts = {part.name: part.count for part in job.parts}
    if any(claim.or_else and hardware.name in (claim.hardware.name, *claim.or_else) for claim in claims):
        return None
    deep = sum(claim.bore.depth_mm * counts[claim.part] for claim in claims if claim.hardware.name == hardware.name)
    return deep / hardware.count if deep > 0 else None


def with_stacks(job: Job, surveys: Mapping[str, Survey]) -> Job:
    """Return the job with every stack that nobody stated taken from the bores, as a marked guess."""
    claims = claims_of(job, surveys).claims
    hardware, notes = [], []
    for one in job.hardware:
        deep = stack_mm(job, one, claims) if one.stack_mm is None and _joins(one) else None
        if deep is not None:
            why = "stack_mm is not stated: depth of the bores it goes through, without gaps and washers"
            notes.append(Guess(what=f"{STACK_OF}{one.name}", value=f"{deep:.1f} mm", why=why))
        hardware.append(one if deep is None else replace(one, stack_mm=deep))
    return replace(job, hardware=tuple(hardware), notes=(*job.notes, *notes))


def notes_that_stand(job: Job) -> tuple[Guess, ...]:
    """Return the job's notes without those on the stack of hardware that an answer has since replaced."""
    names = {f"{STACK_OF}{one.name}" for one in job.hardware}
    return tuple(note for note in job.notes if note.what in names or not note.what.startswith(STACK_OF))


def _joins(hardware: Hardware) -> bool:
    """Return whether a piece of hardware is said to go through several parts, so that their depths are its stack."""
    return hardware.kind in THROUGH and len(hardware.joins) > 1


def _loose(groups: Sequence[Sequence[str]]) -> Finding:
    """Say that what is named joins the parts in several groups, so that fits between the groups are not checked."""
    told = "; ".join(", ".join(group) for group in groups)
    return Finding(
        rule="mate.loose",
        part="",
        feature="joints",
        verdict=Verdict.GO,
        measured=float(len(groups)),
        limit=1.0,
        unit="groups",
        why=f"hardware and gaps of the job leave {len(groups)} groups of parts that are not joined: {told}",
        source="job file",
    )


def _stack(hardware: Hardware, deep_mm: float) -> list[Finding]:
    """Compare a stated stack with the depth of the bores: it may be longer by what is not printed, never shorter."""
    stated = hardware.stack_mm or 0.0
    if len(hardware.joins) < 2 or stated >= deep_mm - STACK_SHORT_MM:
        return []
    return [
        Finding(
            rule="mate.stack",
            part=hardware.joins[0],
            feature=hardware.name,
            verdict=Verdict.GO,
            measured=stated,
            limit=deep_mm,
            unit="mm",
            why=f"the stack of {hardware.name} is stated as {stated:g} mm, its bores are {deep_mm:.1f} mm deep",
            source="survey of the meshes",
            caution="A screw of that length would not reach through: measure the stack before buying.",
        )
    ]
