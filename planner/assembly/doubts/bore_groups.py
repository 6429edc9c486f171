"""Bores that one answer settles: those of one size over all parts, with the wider steps above them."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from statistics import median

import numpy as np

from planner.assembly.bore_axes import BoreAxis, axes_of, no_longer, runs_of
from planner.assembly.claim import same_size
from planner.assembly.doubts.mates.bearing_answers import bearing_in
from planner.assembly.doubts.shared_axes import shared_axes
from planner.assembly.doubts.spoken_bores import spoken_bores
from planner.assembly.nut_pockets import pockets_on
from planner.assembly.pegs.pegs_in_bores import pegs_in_bores
from planner.assembly.screw_heads import head_fits
from planner.job import BoreEnds, HardwareKind, Job, Limits, StockSize
from planner.survey import Bore, Survey

LEVER_SHARE, LEVER_MM = 0.6, 0.2
"""A lever fills this share of its fork, and is hardly wider than it; common practice, no source."""
SPACER_MM = 5.0
"""A washer, or a thin spacer, may keep the parts on a screw this far apart; common practice, no source."""
DRAWN_MM = 0.02
"""Single precision and facets move a drawn diameter by less."""
Key = tuple[str, str]
"""A part's name, and a bore's."""
Member = tuple[str, Bore]
"""A part's name, and a bore of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreGroup:
    """Bores of one size, through or blind.

    Parameters
    ----------
    size_mm
        The diameter that most of them have, as drawn.
    seats
        Other steps on the same axes: where a head or a nut sits, or what lies below a bearing.
    bearing
        The bearing that they are seats of by form; None for all others.
    forked_share
        Share of them, 0 to 1, that lie behind another one of the same part, with room between.
    lever_mm
        The widest such room that a bore of another part fills, a lever in its fork; 0 where none does.
    """

    size_mm: float
    through: bool
    members: tuple[Member, ...]
    seats: tuple[Member, ...]
    forked_share: float
    lever_mm: float
    bearing: StockSize | None = None
    pockets: tuple[Member, ...] = ()
    """Hexagonal pockets at their ends."""
    wider: BoreGroup | None = None
    """Wider bores of other parts on the same axes, which the same pieces go through."""
    into: tuple[str, ...] = ()
    """Parts with bores for inserts below all of these, in which their screws end."""
    apart: bool = False
    """Whether bores of this size in other parts are asked about by themselves."""

    @property
    def id(self) -> str:
        """Stable and readable: ``bores-3.2-through``, ``bores-3.2-3.4-fork``."""
        if self.wider is not None:
            return f"bores-{self.size_mm:.1f}-{self.wider.size_mm:.1f}-{self.parts[0]}"
        if self.apart:
            return f"bores-{self.size_mm:.1f}-{self.parts[0]}"
        return f"bores-{self.size_mm:.1f}-{'through' if self.through else 'blind'}"

    @property
    def lever(self) -> bool:
        """Whether a lever fills a fork."""
        return self.lever_mm > 0

    @property
    def called(self) -> str:
        """``bores`` or ``blind bores``."""
        return "bores" if self.through else "blind bores"

    @property
    def parts(self) -> tuple[str, ...]:
        """The parts that have them, in the job's order."""
        return tuple(dict.fromkeys(name for name, _ in self.every))

    @property
    def every(self) -> tuple[Member, ...]:
        """All of them, the wider ones too."""
        return self.members if self.wider is None else (*self.members, *self.wider.members)

    @property
    def features(self) -> tuple[tuple[str, str], ...]:
        """Part and bore of all of them, steps and pockets too."""
        mine = tuple((name, bore.id) for name, bore in (*self.members, *self.seats, *self.pockets))
        return mine if self.wider is None else (*mine, *self.wider.features)

    def ends_beside(self, others: Iterable[BoreGroup], limits: Limits) -> BoreEnds | None:
        """Return whether only the through, or the blind, bores of this size are meant; None where a part has one kind.

        Below the pocket of its nut, a blind bore belongs to the through ones: then no such word tells them apart.
        """
        mine = [bore for _, bore in self.members]
        if self.bearing is not None or not all(bore.through is self.through for bore in mine):
            return None
        for other in others:
            if other.through is self.through or other.bearing is not None or not set(self.parts) & set(other.parts):
                continue
            if any(same_size(bore, [self.size_mm], limits) for _, bore in other.members):
                return "through" if self.through else "blind"
        return None

    def pieces_n(self, copies: Mapping[str, int], kind: HardwareKind, longest_mm: float | None = None) -> int:
        """Return how many pins, or screws, go through them: one through bores that follow each other on one axis.

        A lever in its fork, or a spacer, fills the room between two; through any other only a pin reaches.
        What sits in blind bores sits in one each. Where ``longest_mm``, the longest that is sold, does not reach
        through forks side by side, each of them has one of its own.
        """
        if not self.through and self.wider is None:
            return sum(copies[name] for name, _ in self.members)
        reach_mm = math.inf if kind == "dowel-pin" and not self.lever else SPACER_MM
        long = runs_of(self.every, reach_mm, self.lever_mm)
        runs = [part for run in long for part in no_longer(run, longest_mm)]
        return sum(max(copies[name] for name, _ in run) for run in runs)

    def least_n(self, copies: Mapping[str, int]) -> int:
        """Return how many pieces go through them at least: as many as the part with most of them has axes."""
        return max(len(axes_of([b for n, b in self.every if n == name])) * copies[name] for name in self.parts)

    @property
    def depth_mm(self) -> float:
        """How deep the middle one of them is."""
        return median(bore.depth_mm for _, bore in self.members)


def bore_groups(job: Job, surveys: Mapping[str, Survey]) -> tuple[BoreGroup, ...]:
    """Return the bores that no person has said anything about, in groups, smallest first."""
    spoken = spoken_bores(job, surveys)
    free, seats_of, above = _mains(job, surveys, spoken)
    free += _with_flats(job, surveys, spoken)
    groups: list[BoreGroup] = []
    reached = _reached(free, job.limits)

    def grouped(members: Sequence[Member], *, through: bool, about: Sequence[Member] = ()) -> BoreGroup:
        hexagons = tuple((name, one) for name, bore in members for one in pockets_on(surveys[name], bore))
        return replace(_group(members, _beside(members, above), about, through=through), pockets=hexagons)

    for axes in shared_axes(free, job, SPACER_MM):
        free = [one for one in free if one not in (*axes.narrow, *axes.wide)]
        tight = grouped(axes.narrow, through=all(one in reached for one in axes.narrow), about=axes.wide)
        groups.append(replace(tight, wider=grouped(axes.wide, through=True, about=axes.narrow)))
    for through in (True, False):
        for members in _sizes([one for one in free if (one in reached) is through], job.limits):
            groups.append(grouped(members, through=through))
    for bearing, members in seats_of.values():
        groups += [
            replace(_group(same, _beside(same, above), through=True), bearing=bearing)
            for same in _sizes(members, job.limits)
        ]
    return tuple(sorted(groups, key=lambda group: (group.size_mm, not group.through)))


def _mains(
    job: Job, surveys: Mapping[str, Survey], spoken: Collection[Key]
) -> tuple[list[Member], dict[str, tuple[StockSize, list[Member]]], dict[Key, list[Bore]]]:
    """Return the bores that tell what goes through, those that are seats of each bearing, and the steps above each."""
    free: list[Member] = []
    seats_of: dict[str, tuple[StockSize, list[Member]]] = {}
    above: dict[Key, list[Bore]] = {}
    for part in job.parts:
        if part.ignore_bores:
            continue
        for stack in _stacks(surveys[part.name].bores):
            left = [bore for bore in stack if (part.name, bore.id) not in spoken]
            if not left:
                continue
            narrow = min(left, key=lambda bore: bore.drawn_diameter_mm)
            wide = max(left, key=lambda bore: bore.drawn_diameter_mm)
            stepped = wide is not narrow and not _for_head(narrow, wide, job)
            bearing = bearing_in(wide, narrow, job.tables) if stepped else None
            main = narrow if bearing is None else wide
            above[part.name, main.id] = [bore for bore in left if bore is not main]
            if bearing is None:
                free.append((part.name, main))
            else:
                seats_of.setdefault(bearing.label, (bearing, []))[1].append((part.name, main))
    return free, seats_of, above


def _reached(free: Sequence[Member], limits: Limits) -> list[Member]:
    """Return the bores that something goes through: those that are through, and blind ones of that size behind them.

    Below the pocket of its nut, a screw's end stands in a bore that is blind: it is no bore of its own.
    """
    found = []
    for run in runs_of(free, SPACER_MM):
        open_mm = [(part, bore.drawn_diameter_mm) for part, bore in run if bore.through]
        for part, bore in run:
            if bore.through or same_size(bore, [mm for where, mm in open_mm if where == part], limits):
                found.append((part, bore))
    return found


def _with_flats(job: Job, surveys: Mapping[str, Survey], spoken: Collection[tuple[str, str]]) -> list[Member]:
    """Return the bores with a flat, or open at a side, that a peg of another part is drawn in, or has the same flat."""
    stated = replace(job, left_open=tuple(one for one in job.left_open if not one.guessed))
    found = pegs_in_bores(stated, surveys, spoken)
    return [(name, one.bore) for (name, _), one in found.items() if one.bore in surveys[name].possible_bores]


def _beside(members: Iterable[Member], above: Mapping[tuple[str, str], Sequence[Bore]]) -> tuple[Member, ...]:
    """Return the other steps of some bores."""
    return tuple((name, other) for name, bore in members for other in above.get((name, bore.id), ()))


def _for_head(narrow: Bore, wide: Bore, job: Job) -> bool:
    """Return whether a step is as wide as a screw's head asks for, and the bore below it as the screw itself does."""
    return any(
        stock.diameter_mm.value - DRAWN_MM <= narrow.drawn_diameter_mm <= stock.bores_mm[-1].value + DRAWN_MM
        and head_fits(wide.drawn_diameter_mm, stock.diameter_mm.value)
        for stock in job.tables.machine_screws
    )


def _group(
    members: Sequence[Member], seats: tuple[Member, ...], about: Sequence[Member] = (), *, through: bool
) -> BoreGroup:
    """Return one group; its size is the one that most bores have, the middle of those where several tie.

    ``about`` are bores of other sizes on its axes, which may fill a fork.
    """
    counts = Counter(round(bore.drawn_diameter_mm, 2) for _, bore in members)
    most = max(counts.values())
    sizes = sorted(size for size, n in counts.items() if n == most)
    forks = _forks(members)
    return BoreGroup(
        size_mm=sizes[len(sizes) // 2],
        through=through,
        members=tuple(members),
        seats=seats,
        forked_share=sum(len(axis.bores) for _, axis in forks) / len(members),
        lever_mm=max((_filled_mm((*members, *about), name, axis) for name, axis in forks), default=0.0),
    )


def regrouped(group: BoreGroup, kept: Collection[str]) -> BoreGroup:
    """Return a group with the bores of some of its parts alone."""
    every = (group.members, group.seats, group.pockets)
    members, seats, pockets = (tuple(one for one in of if one[0] in kept) for of in every)
    return replace(_group(members, seats, through=group.through), bearing=group.bearing, pockets=pockets)


def _forks(members: Iterable[Member]) -> list[tuple[str, BoreAxis]]:
    """Return the axes, with their parts, on which several bores of one part lie."""
    by_part: dict[str, list[Bore]] = {}
    for name, bore in members:
        by_part.setdefault(name, []).append(bore)
    return [(name, axis) for name, bores in by_part.items() for axis in axes_of(bores) if len(axis.bores) > 1]


def _filled_mm(members: Iterable[Member], fork: str, axis: BoreAxis) -> float:
    """Return the widest room between the bores of a fork that a bore of another part is about as deep as; 0: none."""
    along = np.asarray(axis.bores[0].axis)
    ends = sorted((float(along @ bore.centre_mm), bore.depth_mm / 2) for bore in axis.bores)
    rooms = [(b - b_half) - (a + a_half) for (a, a_half), (b, b_half) in pairwise(ends)]
    filled = (
        room
        for room in rooms
        if room > 0
        and any(name != fork and LEVER_SHARE * room <= bore.depth_mm <= room + LEVER_MM for name, bore in members)
    )
    return max(filled, default=0.0)


def _stacks(bores: Iterable[Bore]) -> list[list[Bore]]:
    """Return a part's bores, those that are steps of one stack together."""
    stacks: dict[str, list[Bore]] = {}
    for bore in bores:
        stacks.setdefault(bore.step_of or bore.id, []).append(bore)
    return list(stacks.values())


def _sizes(members: list[Member], limits: Limits) -> list[list[Member]]:
    """Return bores in groups that one drawn diameter finds: all within the matching share of their smallest."""
    groups: list[list[Member]] = []
    for member in sorted(members, key=lambda one: one[1].drawn_diameter_mm):
        if groups and same_size(member[1], [groups[-1][0][1].drawn_diameter_mm], limits):
            groups[-1].append(member)
        else:
            groups.append([member])
    return groups
