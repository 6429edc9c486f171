"""A weight that hangs at the tip of a part that grips: as load cases of that part, and of all that carry it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Job, part_of
from planner.mechanism import CopyLoads, Frame, PointLoad
from planner.mesh import Solid
from planner.strength.hung.way_to_body import Split, WayToBody, way_to_body
from planner.strength.loads.hardest_grip import hung_n
from planner.strength.loads.load_cases import TURNS, known_case
from planner.strength.loads.part_load import LoadCase, PartLoad, Support, as_vec
from planner.strength.loads.through_pins import all_pushes_of, pushes_of

Floats = NDArray[np.float64]
Held = Callable[[str], Sequence[Support]]
SAME_MM = 5.0
"""Tips of copies of a part nearer to each other than this, such as the pads of two jaws, hold one weight."""
WORN = (
    "How is {0} held while {1:g} N hang at the tip: by all its straps at once, or by the one that is farthest from the "
    "tip, over its edge? Pull at the tip with a spring balance, on the bench, and watch both; state hang_n of [use]."
)
HELD = (
    "What holds {0} while {1:g} N hang at the tip of {2}? State skin_side of the [[part]] that is worn or held in the "
    "hand, or its [[strap]]; hang_n of [use], if less hangs there."
)
UNSTATED = (
    "What hangs at the tip of {0} at most, whichever way up it is held? State hang_n of [use], 0 where nothing does; "
    "load_dir of {0}, where it always pulls one way."
)
EDGE_MM = 5.0
"""So much of a part's end lies on the body as its edge; no source."""
SHARED = "How much of {1:g} N at the tip of {2} goes through {0}, and how much through what lies beside it?"


@dataclass(frozen=True, kw_only=True)
class HungLoads:
    """The weight at every tip of a device.

    Parameters
    ----------
    weight_n
        How much hangs there.
    said
        What states it, in words.
    tips
        Where it hangs: by copy, the loads at its tips in its mesh, as the mechanism has them.
    gripping
        What cords do to each copy under the hardest grip: the weight adds to it.
    """

    job: Job
    weight_n: float
    said: str
    tips: CopyLoads
    gripping: CopyLoads
    ways: Mapping[str, WayToBody]
    frames: Mapping[str, Frame]
    solids: Mapping[str, Solid]
    held: Held

    def carries(self, part: str) -> bool:
        """Return whether a shell lies between a tip and what is worn, or is that: it is screened under the weight."""
        return self.job.part(part).judged_duty == "shell" and any(part in way.between for way in self.ways.values())

    def on(self, copy: str) -> Iterator[LoadCase]:
        """Yield what the weight does to a copy, in its mesh; nothing to what does not carry it.

        It hangs any way that the device may be held, unless ``load_dir`` of the gripping part says which: across the
        arm from its joint in all directions, and along it.
        """
        if copy not in self.frames:
            return
        for tip, at in self._places(copy):
            for push in self._pushes(tip, at):
                if tip == copy:
                    load = PartLoad(at_mm=push.at_mm, force_n=push.force_n)
                    found = [self._case(copy, [load], self.held(copy), tip)]
                else:
                    found = list(self._passed(copy, push))
                for case in found:
                    yield replace(case, asks=case.asks or self._unstated(part_of(tip)))

    def _unstated(self, tip: str) -> str:
        """Return what to ask where a weight is only taken to hang there; empty where it or its way is stated."""
        stated = self.job.use.hang_n is not None or self.job.part(tip).load_dir is not None
        return "" if stated else UNSTATED.format(tip)

    def _places(self, copy: str) -> Iterator[tuple[str, PointLoad]]:
        """Yield the tips that count for a copy: its own; of others each place once, whatever many copies meet there."""
        seen: list[tuple[str, Floats]] = []
        for tip, loads in self.tips.items():
            for load in loads:
                if tip == copy:
                    yield tip, load
                if part_of(tip) == part_of(copy):
                    continue
                at = np.array(self.frames[tip].point(load.at_mm))
                if all(name != part_of(tip) or np.linalg.norm(at - there) > SAME_MM for name, there in seen):
                    seen.append((part_of(tip), at))
                    yield tip, load

    def _pushes(self, tip: str, at: PointLoad) -> Iterator[PointLoad]:
        """Yield the weight at a tip in every way that it may hang, in the tip's mesh."""
        stated = self.job.part(part_of(tip)).load_dir
        supports = self.held(tip)
        if stated is not None or not supports:
            way = np.array(stated or at.force_n)
            yield replace(at, force_n=as_vec(self.weight_n * way / np.linalg.norm(way)))
            return
        arm = min((np.subtract(at.at_mm, one.at_mm) for one in supports), key=lambda way: float(np.linalg.norm(way)))
        along, first, second = np.linalg.svd(arm[None])[2]
        for way in (*(np.cos(turn) * first + np.sin(turn) * second for turn in TURNS), along):
            for sign in (1.0, -1.0):
                yield replace(at, force_n=as_vec(sign * self.weight_n * way))

    def _passed(self, copy: str, push: PointLoad) -> Iterator[LoadCase]:
        """Yield what a weight on a tip does to another copy, with what the grip does to that at the same time."""
        part, tip = part_of(copy), push.copy
        way = self.ways[part_of(tip)]
        split = way.split(part, self.held(copy))
        if split is None:
            return
        here, back = self.frames[tip], self.frames[copy].inverse()
        there = PointLoad(
            copy=copy,
            at_mm=back.point(here.point(push.at_mm)),
            force_n=back.direction(here.direction(push.force_n)),
            over=tuple(one.over for one in split.brings),
        )
        for holds, how, asks in self._holds(copy, split, there, way):
            found = self._case(copy, pushes_of(there, split.brings), holds, tip)
            if part in way.worn:
                found = replace(found, ways=_through(split.brings, holds))
            yield replace(found, said=found.said + how, asks=asks)

    def _holds(
        self, copy: str, split: Split, there: PointLoad, way: WayToBody
    ) -> Iterator[tuple[Sequence[Support], str, str]]:
        """Yield what may hold a copy against the weight, in words, and what to ask where nothing says which it is."""
        part = part_of(copy)
        numbers = (part, self.weight_n, part_of(way.tip))
        if part in way.worn:
            together = [*split.holds, *([] if split.holds else [self._edge(copy, there, near=False)])]
            yield together, ", all straps holding" if split.holds else ", held at its far edge", ""
            far = self._levered(copy, split, there)
            if far:
                yield far, ", levered over its near edge and held by the farthest strap alone", WORN.format(*numbers)
            return
        holds = split.holds or (self._edge(copy, there, near=False),)
        asks = "" if way.known and split.holds else HELD.format(*numbers)
        copies = self.job.part(part).count
        if not asks and (split.shared or copies > 1):
            asks = SHARED.format(*numbers)
        yield holds, "" if split.holds else ", held at its far end", asks

    def _levered(self, copy: str, split: Split, there: PointLoad) -> list[Support]:
        """Return the slots farthest from a tip, of one strap, with the edge of the part that lies on the body before.

        That is the longest lever that straps and limb leave: the others are slack.
        """
        if len(split.holds) < 2:
            return []
        edge = self._edge(copy, there, near=True)
        along = np.subtract(there.at_mm, np.mean([one.at_mm for one in split.holds], axis=0))
        along /= np.linalg.norm(along)
        last = min(float(along @ one.at_mm) for one in split.holds)
        far = [one for one in split.holds if float(along @ one.at_mm) - last <= SAME_MM]
        return [edge, *far]

    def _edge(self, copy: str, there: PointLoad, *, near: bool) -> Support:
        """Return the edge of a part nearest to a tip or farthest from it, in the middle of what lies there."""
        points = self.solids[part_of(copy)].vertices_mm
        along = np.subtract(there.at_mm, points.mean(axis=0))
        along /= np.linalg.norm(along)
        reach = points @ along
        edge = reach >= reach.max() - EDGE_MM if near else reach <= reach.min() + EDGE_MM
        return Support(at_mm=as_vec((points[edge].min(axis=0) + points[edge].max(axis=0)) / 2.0))

    def _case(self, copy: str, pushes: Sequence[PartLoad], holds: Sequence[Support], tip: str) -> LoadCase:
        """Return the weight on a copy with what cords do to it at the same time, balanced by what holds it."""
        cords = all_pushes_of(self.gripping.get(copy, ()), self.held(copy))
        said = f"{self.weight_n:g} N ({self.said}) hung at the tip of {part_of(tip)}"
        return known_case([*pushes, *cords], holds, f"{said} while it grips" if cords else said)


def _through(brings: Sequence[Support], holds: Sequence[Support]) -> tuple[tuple[Vec3, Vec3], ...]:
    """Return the ways that a worn part is cut along: a shell has many joints and straps, and two tell its section.

    From the middle of what holds it to the middle of what brings the load, and between the nearest two of them.
    """
    middles = [as_vec(np.mean([one.at_mm for one in each], axis=0)) for each in (holds, brings)]
    pairs = [(one.at_mm, other.at_mm) for one in holds for other in brings]
    near = min(pairs, key=lambda pair: float(np.linalg.norm(np.subtract(*pair))))
    return tuple(dict.fromkeys([(middles[0], middles[1]), near]))


def hung_loads(
    job: Job,
    claims: Sequence[Claim],
    frames: Mapping[str, Frame],
    solids: Mapping[str, Solid],
    held: Held,
    tips: CopyLoads,
    gripping: CopyLoads,
) -> HungLoads | None:
    """Return the weight that hangs at the tips of a device; None where it has none, or nothing hangs there.

    Parameters
    ----------
    tips
        A load at every tip that a cord drives, by copy.
    """
    weight_n, said = hung_n(job), "hang_n" if job.use.hang_n is not None else "load_n"
    if not tips or not weight_n:
        return None
    if job.use.hang_n is None and job.use.load_n is None:
        said = "as much as grip_n"
    return HungLoads(
        job=job,
        weight_n=weight_n,
        said=said,
        tips=tips,
        gripping=gripping,
        ways={part_of(tip): way_to_body(job, claims, part_of(tip)) for tip in tips},
        frames=frames,
        solids=solids,
        held=held,
    )
