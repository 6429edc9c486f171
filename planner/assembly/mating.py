"""Mating: which parts meet by what, how deep each stack of bores is, and what nothing holds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

import networkx as nx

from planner.assembly.bore_axes import coaxial
from planner.assembly.claim import Claim, claims_of
from planner.assembly.drawn.drawn_in_place import APART_MM
from planner.finding import Finding, Guess, Verdict
from planner.job import Hardware, Job
from planner.survey import Survey

THROUGH = ("machine-screw", "wood-screw", "binding-post", "dowel-pin")
"""Hardware that runs through its parts, so that their depths are its stack."""
STACK_OF = "stack of "
"""Begins the note on a stack that the bores tell."""
REACHES = ("machine-screw", "wood-screw", "binding-post")
"""Hardware that is no use where it ends before the last face: a pin may be shorter than its bores."""
TOUCH_MM = 0.1
"""Bores of parts in place overlap along their axis by no more than rounding."""
STACK_SHORT_MM = 1.0
"""A stated stack may be this much shorter than the bores that it goes through."""


def mating_graph(job: Job) -> nx.Graph[str]:
    """Return the graph of a job: a node for each part and each joint, an edge where a joint touches a part.

    Nodes carry ``kind``: part, hardware, gap, joint, cord or strap. Joints are named ``kind: name``.
    """
    graph: nx.Graph[str] = nx.Graph()
    graph.add_nodes_from((part.name for part in job.parts), kind="part")
    joints = [
        (f"hardware: {h.name}", "hardware", (*h.joins, *((h.printed,) if h.printed else ()))) for h in job.hardware
    ]
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
            found += _stack(job, hardware, claims, deep)
    return found


def stack_mm(job: Job, hardware: Hardware, claims: Sequence[Claim]) -> float | None:
    """Return the depth of bores that one piece of hardware goes through, as drawn; None where none is settled.

    All bores of all printed copies, shared among the pieces: gaps, washers and heads are not in it. Where pieces pass
    unlike depths, or bores do not share out among them, as three of a lid do among two screws, nothing is settled.
    """
    if any(claim.or_else and hardware.name in (claim.hardware.name, *claim.or_else) for claim in claims):
        return None
    mine = [claim for claim in claims if claim.hardware.name == hardware.name]
    deep_mm, some_mm = 0.0, list[float]()
    for name in {claim.part for claim in mine}:
        copies_n = job.part(name).count
        axes_mm = [sum(one.bore.depth_mm for one in axis) for axis in _axes([c for c in mine if c.part == name])]
        axes_n = len(axes_mm) * copies_n
        if axes_n < hardware.count:
            some_mm += axes_mm * copies_n
        elif axes_n == hardware.count or axes_n % hardware.count:
            if max(axes_mm) - min(axes_mm) > STACK_SHORT_MM:
                return None
            deep_mm += sum(axes_mm) / len(axes_mm)
        else:  # each goes through several bores of the part
            deep_mm += sum(axes_mm) * copies_n / hardware.count
    if len(some_mm) % hardware.count or (some_mm and max(some_mm) - min(some_mm) > STACK_SHORT_MM):
        return None
    deep_mm += sum(some_mm) / hardware.count
    return deep_mm if deep_mm > 0 else None


def with_stacks(job: Job, surveys: Mapping[str, Survey]) -> Job:
    """Return the job with every stack that nobody stated taken from the bores, as a marked guess.

    Where parts are drawn in place the gaps between them count: a screw must pass them, too.
    """
    claims = claims_of(job, surveys).claims
    hardware, notes = [], []
    for one in job.hardware:
        deep = _told_mm(job, one, claims) if one.stack_mm is None and _joins(one) else None
        if deep is not None:
            why = "stack_mm is not stated: depth of the bores it goes through, without gaps and washers"
            passed = passed_mm(job, one, claims) or max(_spans_mm(job, one, claims), default=None)
            if passed is not None and passed > deep:
                deep, why = passed, "stack_mm is not stated: from the first face it passes to the last, without washers"
            notes.append(Guess(what=f"{STACK_OF}{one.name}", value=f"{deep:.1f} mm", why=why))
        hardware.append(one if deep is None else replace(one, stack_mm=deep))
    return replace(job, hardware=tuple(hardware), notes=(*job.notes, *notes))


def _told_mm(job: Job, hardware: Hardware, claims: Sequence[Claim]) -> float | None:
    """Return the depth that one piece passes, through one part alone where each does so; None where they differ."""
    if not (lone := _lone_mm(job, hardware, claims)):
        return stack_mm(job, hardware, claims)
    return max(lone) if max(lone) - min(lone) <= STACK_SHORT_MM else None


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
        caution="How these groups meet is not stated, so whether they fit each other at this size is not judged: state "
        "a [[gap]] or a [[joint]] between them, or try them on each other first.",
    )


def _stack(job: Job, hardware: Hardware, claims: Sequence[Claim], deep_mm: float) -> list[Finding]:
    """Compare a stated stack with the meshes: it may be longer by what is not printed, never shorter.

    A screw or post that does not reach through all that it must pass is held; one that only holds by less of a pilot,
    a pin, or bores that do not share out among the pieces, get a word.
    """
    stated = hardware.stack_mm or 0.0
    passed = passed_mm(job, hardware, claims)
    if len(hardware.joins) < 2 or stated >= max(deep_mm, passed or 0.0) - STACK_SHORT_MM:
        return []
    short = passed is not None and stated < passed - STACK_SHORT_MM
    limit = passed if short and passed is not None else deep_mm
    why = f"the stack of {hardware.name} is stated as {stated:g} mm, and "
    why += f"{'what it passes is' if short else 'its bores are'} {limit:.1f} mm {'thick' if short else 'deep'}"
    return [
        Finding(
            rule="mate.stack",
            part=hardware.joins[0],
            feature=hardware.name,
            verdict=Verdict.HOLD if short else Verdict.GO,
            measured=stated,
            limit=limit,
            unit="mm",
            why=why,
            remedy=f"state stack_mm = {limit:.1f} of {hardware.name}, or what it joins" if short else "",
            source="survey of the meshes",
            question=f"How thick is all that {hardware.name} goes through: {stated:g} or {limit:.1f} mm?"
            if short
            else "",
            caution="A screw of that length would not reach through: measure the stack before buying.",
        )
    ]


def passed_mm(job: Job, hardware: Hardware, claims: Sequence[Claim]) -> float | None:
    """Return how much a screw or post must pass at least, as drawn; None where the bores do not tell, and for a pin.

    Where all its parts are drawn in place on one axis, from the first face to the last; else the sum of its through
    bores, where each part has one axis of them for every piece. What a screw only ends in is not in it.
    """
    if hardware.kind not in REACHES:
        return None
    mine = [claim for claim in claims if claim.hardware.name == hardware.name]
    if spans := _spans_mm(job, hardware, claims):
        return max(spans)
    through = [claim for claim in mine if claim.bore.through and claim.fit != "pilot"]
    for name in {claim.part for claim in mine}:
        bores = [claim for claim in mine if claim.part == name]
        if len(_axes(bores)) * job.part(name).count != hardware.count:
            return None
    deep = sum(claim.bore.depth_mm * job.part(claim.part).count for claim in through)
    return deep / hardware.count if deep > 0 else None


def _spans_mm(job: Job, hardware: Hardware, claims: Sequence[Claim]) -> list[float]:
    """Return from face to face what one piece passes, for each axis on which its parts are drawn in place."""
    axes = _axes([claim for claim in claims if claim.hardware.name == hardware.name])
    alone = len(axes) == hardware.count
    return [span for axis in axes if (span := _span_mm(job, hardware, axis, alone=alone)) is not None]


def _lone_mm(job: Job, hardware: Hardware, claims: Sequence[Claim]) -> list[float]:
    """Return what each piece passes where every one goes through one part alone; empty where they join parts.

    So it is where there are as many pieces as axes in all parts, and no axis is two parts'. From face to face: a bolt
    across a hub passes what stands between its two bores, too.
    """
    mine = [claim for claim in claims if claim.hardware.name == hardware.name]
    axes = [(name, axis) for name in hardware.joins for axis in _axes([c for c in mine if c.part == name])]
    shared = len(_axes(mine)) < len(axes)
    if shared or len({name for name, _ in axes}) < 2 or sum(job.part(n).count for n, _ in axes) != hardware.count:
        return []
    return [_face_to_face_mm(axis) for _, axis in axes]


def _face_to_face_mm(axis: Sequence[Claim]) -> float:
    """Return how far it is from the first face to the last of bores on one axis."""
    way, middle = axis[0].bore.axis, axis[0].bore.centre_mm
    at = [sum((a - b) * c for a, b, c in zip(one.bore.centre_mm, middle, way, strict=True)) for one in axis]
    return max(x + one.bore.depth_mm / 2 for x, one in zip(at, axis, strict=True)) - min(
        x - one.bore.depth_mm / 2 for x, one in zip(at, axis, strict=True)
    )


def _axes(claims: Sequence[Claim]) -> list[list[Claim]]:
    """Return claims axis by axis, as their bores are drawn."""
    axes: list[list[Claim]] = []
    for claim in claims:
        mine = next((axis for axis in axes if coaxial(axis[0].bore, claim.bore)), None)
        if mine is None:
            axes.append([claim])
        else:
            mine.append(claim)
    return axes


def _come_near(parts: Sequence[str], gaps: Sequence[float]) -> bool:
    """Return whether parts, in their order along an axis, hang together by gaps that a washer or spacer fills."""
    near = nx.Graph([(part, part) for part in parts])
    near.add_edges_from(pair for pair, gap in zip(pairwise(parts), gaps, strict=True) if gap <= APART_MM)
    return bool(nx.is_connected(near))


def _span_mm(job: Job, hardware: Hardware, axis: Sequence[Claim], *, alone: bool) -> float | None:
    """Return from face to face what lies on one axis; None where the parts are not drawn in place there.

    Bores of all its parts, each there once, one behind another and none inside another or far off: so stand parts in
    place, and not parts that are each drawn about an origin of their own. Where a piece is ``alone`` on its axis, the
    bores of a fork may be as far apart as they are, if only every part comes near another.
    """
    parts = {claim.part for claim in axis}
    if parts != set(hardware.joins) or any(job.part(n).count > 1 or job.part(n).scale_percent for n in parts):
        return None
    way, middle = axis[0].bore.axis, axis[0].bore.centre_mm

    def at(claim: Claim) -> float:
        return sum((a - b) * c for a, b, c in zip(claim.bore.centre_mm, middle, way, strict=True))

    runs = sorted((at(one) - one.bore.depth_mm / 2, at(one) + one.bore.depth_mm / 2, k) for k, one in enumerate(axis))
    gaps = [after[0] - before[1] for before, after in pairwise(runs)]
    if any(gap < -TOUCH_MM or (gap > APART_MM and not alone) for gap in gaps):
        return None
    if not _come_near([axis[k].part for _, _, k in runs], gaps):
        return None
    ends_in = [not axis[k].bore.through or axis[k].fit == "pilot" for _, _, k in (runs[0], runs[-1])]
    low = runs[0][1] if ends_in[0] else runs[0][0]
    high = runs[-1][0] if ends_in[1] else runs[-1][1]
    return high - low if high > low else None
