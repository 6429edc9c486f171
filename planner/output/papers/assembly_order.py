"""The order of assembly, from the graph of joints: firm groups first, then what ties them together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import reduce

import networkx as nx

from planner.assembly import Ways, claims_of, ways_of
from planner.job import Job
from planner.output.bench.assembly_joints import (
    FIRM,
    LATE,
    PADDED,
    STRAPPED,
    TIED,
    Joint,
    joints_of,
    names_counted,
    stop_words,
)
from planner.output.bench.driver_access import blocked, there, ways_to, with_free_access
from planner.output.tongue import ENGLISH, Tongue
from planner.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step; ``stop`` must be true before the next."""

    what: str
    stop: str
    name: str = ""
    """Of its joint: what kind it is, and of what."""
    parts: tuple[str, ...] = ()
    there: frozenset[str] = frozenset()
    """The parts that hang together with its own once it is done."""
    screws: str = ""
    """The hardware whose reach was asked for; empty where the step drives none."""
    barred: str = ""
    """The parts that block a driver at this step, where no order avoids that."""
    covers: str = ""
    """What to check before this step, because after it a screw is out of reach; empty where none is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Steps that are done one after the other: a firm group of parts, or what joins the groups."""

    title: str
    steps: tuple[Step, ...]


Run = tuple[str, list[Joint]]
"""A title, and the joints that are made one after the other."""


def order_of(plan: Plan, tongue: Tongue = ENGLISH) -> tuple[Group, ...]:
    """Return all steps in an order in which every step joins something to what is there.

    Firm groups are the connected parts of the graph of firm joints; within one, parts come in breadth-first
    order from the part that most joints touch. Then cords, straps, covers and padding, each when it is reached.
    Where parts are drawn in place, a screw comes before what would cover it; where no order does that, a step says so.
    """
    ways = ways_of_plan(plan)
    joints = _tied_last(joints_of(plan.job, plan.built, tongue))
    runs = _firm_runs(plan.job, joints, ways, tongue)
    done = {joint.name for _, mine in runs for joint in mine}
    runs += _later_runs([joint for joint in joints if joint.name not in done], tongue)
    every = [joint for _, mine in runs for joint in mine]
    stuck = blocked(every, ways)
    covers = _covers(every, stuck)
    joined = {joint.name: there(every, index) for index, joint in enumerate(every)}
    return tuple(
        Group(
            title=title,
            steps=tuple(
                replace(
                    _step(j, ways, stuck.get(j.name, frozenset()), covers.get(j.name, ()), tongue),
                    name=j.name,
                    parts=j.parts,
                    there=joined[j.name],
                )
                for j in mine
            ),
        )
        for title, mine in runs
    )


def _firm_runs(job: Job, joints: Sequence[Joint], ways: Mapping[str, Ways], tongue: Tongue) -> list[Run]:
    """Return the firm groups, largest first, each from its base part outward."""
    names, counts = [part.name for part in job.parts], {part.name: part.count for part in job.parts}
    firm: nx.Graph[str] = nx.Graph()
    firm.add_nodes_from(names)
    for joint in joints:
        if joint.stage == FIRM:
            firm.add_edges_from((joint.parts[0], other) for other in joint.parts[1:])
    touches = {name: sum(name in joint.parts for joint in joints) for name in names}
    runs: list[Run] = []
    for parts in sorted(nx.connected_components(firm), key=lambda c: (-len(c), min(names.index(n) for n in c))):
        mine = [j for j in joints if j.stage == FIRM and set(j.parts) <= parts]
        if not mine:
            continue
        base = max(sorted(parts, key=names.index), key=lambda name: touches[name])
        ordered = list(nx.bfs_tree(firm, base, sort_neighbors=lambda found: sorted(found, key=names.index)))
        mine.sort(key=lambda j: _turn(j, firm, ordered))
        parts_told = names_counted(ordered, counts, tongue)
        title = tongue.say("Group {letter}: {parts}", letter=tongue.kept(_letters(len(runs))), parts=parts_told)
        runs.append((title, with_free_access(mine, ways)))
    return runs


def _later_runs(joints: Sequence[Joint], tongue: Tongue) -> list[Run]:
    """Return cords, straps, covers and padding, as far as there are any."""
    runs: list[Run] = []
    say = tongue.say
    titles = {
        TIED: say("Cords"),
        STRAPPED: say("Straps"),
        LATE: say("Covers and soft parts"),
        PADDED: say("Padding"),
    }
    for stage, title in titles.items():
        mine = [joint for joint in joints if joint.stage == stage]
        mine = sorted(_by_turn(mine) if stage == LATE else mine, key=_threaded_first)
        if mine:
            runs.append((title, mine))
    return runs


def ways_of_plan(plan: Plan) -> dict[str, Ways]:
    """Return the ways to every screw of a plan, by its name."""
    surveys = {part.part.name: part.survey for part in plan.parts}
    solids = {part.part.name: part.solid for part in plan.parts}
    return ways_of(plan.built.job, solids, claims_of(plan.job, surveys).claims, plan.scale_percent / 100.0)


def _tied_last(joints: Sequence[Joint]) -> list[Joint]:
    """Return the joints with those screws among the cords that clamp one: in one part alone, which only cords tie."""
    firm = {part for j in joints if j.stage == FIRM and len(j.parts) > 1 for part in j.parts}
    tied = {part for j in joints if j.stage == TIED and len(j.parts) > 1 for part in j.parts}
    return [
        replace(j, stage=TIED)
        if j.stage == FIRM and len(j.parts) == 1 and j.check != "seat" and j.parts[0] in tied - firm
        else j
        for j in joints
    ]


def _by_turn(joints: list[Joint]) -> list[Joint]:
    """Return joints with a nut before, and a screw after, whatever brings its part to another."""
    turns = {j.name: index for index, j in enumerate(joints)}

    def turn(joint: Joint) -> tuple[int, int]:
        """Return the place of a joint, and its rank there."""
        meets = [turns[j.name] for j in joints if len(j.parts) > 1 and set(j.parts) & set(joint.parts)]
        if len(joint.parts) > 1 or not meets:
            return turns[joint.name], 1
        return (min(meets), 0) if joint.check == "seat" else (max(meets), 2)

    return sorted(joints, key=turn)


def _threaded_first(joint: Joint) -> int:
    """Return the rank of a joint among the cords: thread it, tie it, clamp it; all others keep their order."""
    if joint.stage != TIED or joint.name.startswith("cord: "):
        return 0
    return 1 if len(joint.parts) > 1 else 2


def _covers(
    joints: Sequence[Joint], stuck: Mapping[str, frozenset[str]]
) -> dict[str, list[tuple[str, frozenset[str]]]]:
    """Return, for the step that mounts what will stand in a screw's way, that screw and those parts."""
    found: dict[str, list[tuple[str, frozenset[str]]]] = {}
    for name, parts in stuck.items():
        first = next(joint for joint in joints if set(joint.parts) & parts)
        found.setdefault(first.name, []).append((name.split(": ", 1)[1], parts))
    return found


def _step(
    joint: Joint,
    ways: Mapping[str, Ways],
    barred: frozenset[str],
    covered: Sequence[tuple[str, frozenset[str]]],
    tongue: Tongue,
) -> Step:
    """Return a joint as a step; what must be true, and what must be checked before, with its English below."""

    def warned(one: Tongue) -> str:
        """Return in one language what a step will cover."""
        told = [
            one.say(
                "{parts} will block straight access to {screw}, and no order of these joints avoids that: check first "
                "that a short or angled driver gets there",
                parts=one.listed(one.kept(part) for part in sorted(parts)),
                screw=one.kept(screw),
            )
            for screw, parts in covered
        ]
        return reduce(lambda first, second: one.say("{first}; {second}", first=first, second=second), told)

    way = ways_to(joint, ways)
    return Step(
        what=joint.what,
        stop=tongue.beside(lambda t: stop_words(joint.check, t)),
        screws=way.hardware if way else "",
        barred=tongue.listed(tongue.kept(part) for part in sorted(barred)) if barred else "",
        covers=tongue.beside(warned) if covered else "",
    )


def _letters(index: int) -> str:
    """Return a group's letter: A to Z, then AA, AB and on.

    >>> _letters(0), _letters(25), _letters(26)
    ('A', 'Z', 'AA')
    """
    return (_letters(index // 26 - 1) if index >= 26 else "") + chr(ord("A") + index % 26)


def _turn(joint: Joint, firm: nx.Graph[str], ordered: list[str]) -> tuple[int, int]:
    """Return when a joint's turn comes: when its last part is there; a nut first, a check of movement last.

    What is named in one part alone, a pin or a screw, waits until all that meets this part is there.
    """
    meets = joint.parts
    if len(joint.parts) == 1 and joint.check != "seat":
        meets = (*joint.parts, *firm.neighbors(joint.parts[0]))
    several = 2 if joint.name.startswith("hardware: ") else 1  # a foot is put on before its screws go in
    rank = {"seat": 0, "gap": 4}.get(joint.check, several if len(joint.parts) > 1 else 3)
    return max(ordered.index(part) for part in meets), rank
