"""The order of assembly, from the graph of joints: groups that are firm by themselves first, then what ties them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import networkx as nx

from planner.job import Hardware, Job, JointKind
from planner.papers.words import bought, counted, listed
from planner.planned import Plan
from planner.supplies import HardwareLine

FIRM, TIED, STRAPPED, LATE, PADDED = range(5)
"""Stages: what makes a firm group; cords; straps; covers and soft parts, which hide the rest; padding."""
HOW_STAGE: dict[JointKind, int] = {"tied": TIED, "strapped": STRAPPED}
STOPS: dict[str, str] = {
    "turning": "turns through its whole travel by its own weight, and does not rattle",
    "sliding": "goes in by hand; tighten until nothing shifts, not until plastic gives",
    "held": "does not turn or come out by hand",
    "pilot": "went in straight; no white line, no crack",
    "seat": "sits flush and does not turn",
    "gap": "moves through its whole travel and touches nothing",
    "screwed": "nothing shifts under a firm push; what should turn still turns",
    "pressed": "stays on when pulled by hand",
    "slid": "went the whole way without force and does not tilt",
    "snapped": "stays on when the device is shaken",
    "glued": "has set for the glue's own time and does not move",
    "tied": "the knots hold a firm pull; ends are 10 mm and sealed",
    "strapped": "lies flat and holds a firm pull",
    "braided": "runs freely both ways over its whole path",
    "elastic": "pulls all the way back by itself",
    "padding": "lies flat, covers every edge, and no metal shows",
}
"""What must be true before the next step; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Something that brings parts together. ``check`` is a key of ``STOPS``."""

    name: str
    parts: tuple[str, ...]
    stage: int
    what: str
    check: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step; ``stop`` must be true before the next."""

    what: str
    stop: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Steps that are done one after the other: a firm group of parts, or what joins the groups."""

    title: str
    steps: tuple[Step, ...]


def order_of(plan: Plan) -> tuple[Group, ...]:
    """Return all steps in an order in which every step joins something to what is there.

    Firm groups are the connected parts of the graph of firm joints; within one, parts come in breadth-first
    order from the part that most joints touch. Then cords, straps, covers and padding, each when it is reached.
    """
    job = plan.job
    joints = joints_of(job, {line.name: line for line in plan.hardware})
    names = [part.name for part in job.parts]
    counts = {part.name: part.count for part in job.parts}
    firm = nx.Graph()
    firm.add_nodes_from(names)
    for joint in joints:
        if joint.stage == FIRM:
            firm.add_edges_from((joint.parts[0], other) for other in joint.parts[1:])
    touches = {name: sum(name in joint.parts for joint in joints) for name in names}
    groups: list[Group] = []
    done: set[str] = set()
    components = sorted(nx.connected_components(firm), key=lambda c: (-len(c), min(names.index(n) for n in c)))
    for component in components:
        base = max(sorted(component, key=names.index), key=lambda name: touches[name])
        ordered = list(nx.bfs_tree(firm, base, sort_neighbors=lambda found: sorted(found, key=names.index)))
        mine = [j for j in joints if j.stage == FIRM and set(j.parts) <= component]
        if not mine:
            continue
        mine.sort(key=lambda j: _turn(j, firm, ordered))
        groups.append(_group(f"Group {chr(ord('A') + len(groups))}: {listed(_counted(ordered, counts))}", mine))
        done |= {j.name for j in mine}
    last = [j for j in joints if j.name not in done]
    titles = {TIED: "Cords", STRAPPED: "Straps", LATE: "Covers and soft parts", PADDED: "Padding", FIRM: "The rest"}
    for stage in (TIED, STRAPPED, LATE, PADDED):
        mine = [j for j in last if j.stage == stage]
        if mine:
            groups.append(_group(titles[stage], mine))
    return tuple(groups)


def _turn(joint: Joint, firm: nx.Graph[str], ordered: list[str]) -> tuple[int, int]:
    """Return when a joint's turn comes: when its last part is there; a nut first, a check of movement last.

    What is named in one part alone, a pin or a screw, waits until all that meets this part is there.
    """
    meets = joint.parts
    if len(joint.parts) == 1 and joint.check != "seat":
        meets = (*joint.parts, *firm.neighbors(joint.parts[0]))
    rank = {"seat": 0, "gap": 3}.get(joint.check, 1 if len(joint.parts) > 1 else 2)
    return max(ordered.index(part) for part in meets), rank


def _counted(parts: Iterable[str], counts: Mapping[str, int]) -> list[str]:
    """Return the names with their counts."""
    return [counted(name, counts[name]) for name in parts]


def _group(title: str, joints: list[Joint]) -> Group:
    """Return a group of steps."""
    return Group(title=title, steps=tuple(Step(what=j.what, stop=STOPS[j.check]) for j in joints))


def joints_of(job: Job, lines: Mapping[str, HardwareLine]) -> tuple[Joint, ...]:
    """Return every joint that the job names, hardware first, in the job's order."""
    guided = {cord.part for cord in job.cords}
    late = {p.name for p in job.parts if p.judged_duty in ("cover", "soft") and p.name not in guided}
    counts = {part.name: part.count for part in job.parts}

    def stage(parts: tuple[str, ...]) -> int:
        """Return whether a joint waits for the covers."""
        return LATE if set(parts) & late else FIRM

    found = [_hardware(h, lines[h.name], counts, stage(h.joins)) for h in job.hardware]
    for joint in job.joints:
        one, other = joint.between
        found.append(
            Joint(
                name=f"joint: {joint.between}",
                parts=joint.between,
                stage=HOW_STAGE.get(joint.how, stage(joint.between)),
                what=f"{other} to {one}, {joint.how}" + (f": {joint.note}" if joint.note else ""),
                check=joint.how,
            )
        )
    for gap in job.gaps:
        found.append(
            Joint(
                name=f"gap: {gap.between}",
                parts=gap.between,
                stage=stage(gap.between),
                what=f"Move {gap.between[1]} against {gap.between[0]}, slowly, both ways",
                check="gap",
            )
        )
    for cord in job.cords:
        what = f"Thread {counted(cord.name, cord.count)} through {cord.part}; tie it so that it is just taut at rest"
        found.append(Joint(name=f"cord: {cord.name}", parts=(cord.part,), stage=TIED, what=what, check=cord.kind))
    for strap in job.straps:
        what = f"Pass {counted(strap.name, strap.count)} through {counted(strap.part, counts[strap.part])}"
        found.append(
            Joint(name=f"strap: {strap.name}", parts=(strap.part,), stage=STRAPPED, what=what, check="strapped")
        )
    for padding in job.paddings:
        what = f"Line {padding.part} with its padding, {padding.thickness_mm:g} mm"
        found.append(
            Joint(name=f"padding: {padding.part}", parts=(padding.part,), stage=PADDED, what=what, check="padding")
        )
    return tuple(found)


def _hardware(hardware: Hardware, line: HardwareLine, counts: Mapping[str, int], stage: int) -> Joint:
    """Return the joint that a piece of hardware makes."""
    seat = hardware.kind in ("nut", "washer", "insert")
    parts = listed(_counted(hardware.joins, counts))
    work = f". First: {line.work}" if line.work else ""
    return Joint(
        name=f"hardware: {hardware.name}",
        parts=hardware.joins,
        stage=stage,
        what=f"{counted(hardware.name, hardware.count)} ({bought(line)}) in {parts}{work}",
        check="seat" if seat else hardware.fit or "sliding",
    )
