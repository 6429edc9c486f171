"""A load on one part, on the parts that carry it: force and moment, through the joints between them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import combinations

import networkx as nx
import numpy as np

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Job, part_of
from planner.mechanism import Frame, PointLoad
from planner.strength.loads.load_cases import asks_of, far_ends, known_case, ways_at
from planner.strength.loads.part_load import LoadCase, Support, as_vec
from planner.strength.loads.through_pins import pushes_of
from planner.survey import Survey

Held = Callable[[str], Sequence[Support]]


@dataclass(frozen=True, slots=True, kw_only=True)
class OuterLoad:
    """A load at a place of a copy, as forces that it may be, in the device's frame; ``asks`` as in cases."""

    copy: str
    at_mm: Vec3
    forces_n: tuple[Vec3, ...]
    said: str
    asks: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadsOnOthers:
    """The loads that a job states at places of copies, and what passes them on.

    Parameters
    ----------
    loads
        Those that are stated; where none is, loads at the far end of every copy, as far as nobody has ruled out.
    placed
        Whether they are stated.
    graph
        An edge between parts with hardware in bores of both, or a stated joint.
    """

    loads: tuple[OuterLoad, ...]
    placed: bool
    graph: nx.Graph[str]
    frames: Mapping[str, Frame]
    claims: Sequence[Claim]

    def passed_to(self, copy: str, supports: Sequence[Support]) -> Iterator[LoadCase]:
        """Yield what the loads on other parts do to a copy, in its mesh: they come in over the joints on their side.

        The copy is held where it meets anything else. One that nothing else holds is left out, as is one that is not
        joined to the loaded part. Of loads that nobody has placed, the one farthest from the joint counts.
        """
        if copy not in self.frames or part_of(copy) not in self.graph:
            return
        back, sides = self.frames[copy].inverse(), self._sides(copy, supports)
        found = [(load, sides[part_of(load.copy)]) for load in self.loads if part_of(load.copy) in sides]

        def arm_mm(each: tuple[OuterLoad, list[Support]]) -> float:
            at = np.array(back.point(each[0].at_mm))
            return float(min(np.linalg.norm(at - np.array(one.at_mm)) for one in each[1]))

        for load, facing in found if self.placed or not found else [max(found, key=arm_mm)]:
            rest = [one for one in supports if one not in facing]
            for force_n in load.forces_n:
                there = PointLoad(
                    copy=copy,
                    at_mm=back.point(load.at_mm),
                    force_n=back.direction(force_n),
                    over=tuple(one.over for one in facing),
                )
                case = known_case(pushes_of(there, facing), rest, load.said)
                yield replace(case, asks=load.asks)

    def _sides(self, copy: str, supports: Sequence[Support]) -> dict[str, list[Support]]:
        """Return the supports of a copy on the side of each other part; left out are parts on whose side all are."""
        part, found = part_of(copy), dict[str, list[Support]]()
        without = self.graph.copy()
        without.remove_node(part)
        for side in nx.connected_components(without):
            facing = [one for one in supports if neighbours(self.claims, part, one) & side]
            if 0 < len(facing) < len(supports):
                found |= dict.fromkeys(side, facing)
        return found


def loads_on_others(
    job: Job,
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    frames: Mapping[str, Frame],
    held: Held,
    gripping: Collection[str],
    lost: Collection[str],
    load_n: float,
) -> LoadsOnOthers:
    """Return the loads that a job states at places of copies that something holds; where it states none, far ones.

    Parameters
    ----------
    held
        Gives what holds a copy.
    gripping
        Copies that a cord drives onto what they grip: the load acts there where no other place is stated. At the far
        end of each other part it would be a guess against what is told, and parts that hang on straps, or side by side,
        would each take the moment of all of it: holds of sound devices (up to 122 %, of ours). The
        weight at a tip is passed on by itself (:mod:`hung_loads`).
    lost
        Parts whose stated load lies on nothing: a load that is not where it is meant is not guessed elsewhere.
    """
    loads = partial(_loads, job, surveys, frames, held, {*gripping, *lost}, load_n)
    stated = tuple(loads(placed=True))
    far = () if stated or gripping or lost else tuple(loads(placed=False))
    return LoadsOnOthers(
        loads=stated or far, placed=bool(stated), graph=joined(job, claims), frames=frames, claims=claims
    )


def _loads(
    job: Job,
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
    held: Held,
    without: Collection[str],
    load_n: float,
    *,
    placed: bool,
) -> Iterator[OuterLoad]:
    """Yield the load at each such place, or at the far end of each loaded copy, in every way that is left open."""
    parts = {part.name: part for part in job.parts}  # a printed pin that a remedy takes of steel is none any more
    for copy, frame in frames.items():
        part = parts.get(part_of(copy))
        if part is None or {copy, part.name} & {*without} or (part.load_at_mm is not None) is not placed:
            continue
        supports = held(copy)
        if not supports or (part.judged_duty != "load" and not placed):
            continue
        at_mm = part.load_at_mm or far_ends(surveys[part.name], supports)[0]
        ways = ways_at(part, at_mm, supports)
        yield OuterLoad(
            copy=copy,
            at_mm=frame.point(at_mm),
            forces_n=tuple(as_vec(load_n * np.array(frame.direction(as_vec(way)))) for way in ways),
            said=f"{load_n:g} N at {'load_at_mm' if placed else 'the far end'} of {copy}",
            asks="" if placed and len(ways) == 1 else asks_of(part),
        )


def neighbours(claims: Sequence[Claim], part: str, support: Support) -> set[str]:
    """Return the parts that a support of a part leads to; the name of what it is where it leads to none."""
    pieces = [claim.hardware for claim in claims if (claim.part, claim.bore.id) == (part, support.over)]
    found = {name for piece in pieces for name in (*piece.joins, *filter(None, [piece.printed]))}
    return (found or {support.over}) - {part}


def joined(job: Job, claims: Sequence[Claim]) -> nx.Graph[str]:
    """Return which parts pass loads to each other."""
    graph: nx.Graph[str] = nx.Graph()
    bored = {(claim.part, claim.hardware.name) for claim in claims}
    for piece in job.hardware:
        names = list(dict.fromkeys(name for name in piece.joins if (name, piece.name) in bored))
        # parts on a printed pin pass loads to it, and by it alone to each other
        pairs = [(name, piece.printed) for name in names] if piece.printed else combinations(names, 2)
        graph.add_edges_from(pairs)
    graph.add_edges_from(joint.between for joint in job.joints if joint.between[0] != joint.between[1])
    return graph
