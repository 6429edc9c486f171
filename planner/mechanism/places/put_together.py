"""Copies that are not drawn in place, put together by the axes that hardware joins, by mid-planes and by faces.

Nothing is guessed: where two places that differ are as good, the copy has none, and the reason is told.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from planner.assembly import Claim, axes_of
from planner.job import Job, copy_name, part_of
from planner.mechanism.places.axis_fits import Axis, apart_mm, moved, one_axis, pairs, stacked, two_axes
from planner.mechanism.places.close_chain import close_chain
from planner.mechanism.places.frame import STILL, Frame
from planner.mechanism.places.place_room import Room
from planner.mesh import Solid
from planner.survey import Survey

SPINS_DEG = (0.0, *(k * sense for k in range(15, 181, 15) for sense in (1.0, -1.0)))
"""A piece that may turn about its axis is tried as drawn, then ever farther from it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PutTogether:
    """Frames found, what stays free of them, and why other copies have none."""

    frames: dict[str, Frame] = field(default_factory=dict)
    free: dict[str, str] = field(default_factory=dict)
    why: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """One way to place a piece: its frame, the axes it lies on, whether it is nested, and whether it may still turn."""

    frame: Frame
    targets: tuple[Axis, ...]
    nested: bool
    turns: bool


def put_together(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    known: Mapping[str, Frame],
    loose: Sequence[frozenset[str]],
) -> PutTogether:
    """Place every copy that hardware joins to what is placed, one after the other, until no more can be told."""
    del surveys
    room = Room(solids=solids, frames=dict(known))
    grouped = {copy for group in loose for copy in group}
    every = [copy_name(part.name, n) for part in job.parts for n in range(1, part.count + 1)]
    pieces = [*(tuple(sorted(group)) for group in loose), *((c,) for c in every if c not in known and c not in grouped)]
    free: dict[str, str] = {}
    why: dict[str, str] = {}
    waiting = list(pieces)
    moved = True
    while moved:
        moved = False
        for piece in list(waiting):
            fit = _fit(job, claims, room, free, piece)
            if isinstance(fit, str):
                why[piece[0]] = fit
                continue
            moved = True
            waiting.remove(piece)
            for copy in piece:
                room.frames[copy] = fit.frame
                if fit.turns:
                    free[copy] = f"it may stand at any angle about the axis of {fit.targets[0].hardware}"
            room.hangs[piece[0]] = fit.targets[0]
    return PutTogether(
        frames={copy: frame for copy, frame in room.frames.items() if copy not in known},
        free=free,
        why={copy: why[piece[0]] for piece in waiting for copy in piece},
    )


def _fit(job: Job, claims: Sequence[Claim], room: Room, free: dict[str, str], piece: tuple[str, ...]) -> Fit | str:
    """Return the one way in which a piece can stand; a sentence where there is none, or several."""
    mine = axes_in(job, claims, dict.fromkeys(piece, STILL), piece)
    targets = axes_in(job, claims, room.frames, tuple(room.frames))
    links = _links(mine, targets)
    if not links:
        return f"no hardware joins {piece[0]} to a part whose place is known"
    axes = tuple(axis for axis, _ in links)
    several = any(apart > 1.0 for apart in _apart(axes))
    fits = list(_by_two(links)) if several else list(_by_one(links[0]))
    if several and not fits:
        if close_chain(links, room, free):
            fits = list(_by_two(_links(axes, axes_in(job, claims, room.frames, tuple(room.frames)))))
        if not fits:
            return f"no axes of the placed parts lie to each other as those of {piece[0]} do"
    standing = _standing(room, piece, fits)
    if not standing:
        return f"wherever its axes let {piece[0]} stand, it would be inside another part"
    nested = [fit for fit in standing if fit.nested] or standing
    return _only(job, room, piece, nested)


def _only(job: Job, room: Room, piece: tuple[str, ...], fits: Sequence[Fit]) -> Fit | str:
    """Return the one way to stand; several that use other axes alike are one where enough copies use all of them."""
    first = fits[0]
    here = [fit for fit in fits if _axes_alike(fit, first)]
    for other in here[1:]:
        if not room.same(piece, first.frame, other.frame, first.targets[0] if first.turns else None):
            told = "either way up" if float(np.sum(first.frame.turn * other.frame.turn)) < 2.9 else "on either side"
            return f"{piece[0]} may stand {told} on the axis of {first.targets[0].hardware}: say it with [[place]]"
    elsewhere: list[Fit] = []
    for fit in fits:
        if not any(_axes_alike(fit, known) for known in (first, *elsewhere)):
            elsewhere.append(fit)
    part = part_of(piece[0])
    left = sum(copy_name(part, n) not in room.frames for n in range(1, job.part(part).count + 1))
    if len(piece) > 1 or 1 + len(elsewhere) > left:
        return f"{piece[0]} may stand in {1 + len(elsewhere)} places, for {left} of its kind: say it with [[place]]"
    return first


def _axes_alike(one: Fit, other: Fit) -> bool:
    """Return whether two ways to stand use the same axes."""
    return {id(axis) for axis in one.targets} == {id(axis) for axis in other.targets}


def _standing(room: Room, piece: tuple[str, ...], fits: Sequence[Fit]) -> list[Fit]:
    """Return the ways to stand that overlap nothing; a piece that may turn is turned as little as that needs."""
    found = []
    for fit in fits:
        axis = fit.targets[0]
        for deg in SPINS_DEG if fit.turns else (0.0,):
            turned = fit.frame.turned_about(axis.way, axis.at_mm, deg)
            if room.free(piece, turned):
                found.append(Fit(frame=turned, targets=fit.targets, nested=fit.nested, turns=fit.turns))
                break
    return found


def _by_one(link: tuple[Axis, list[Axis]]) -> Iterator[Fit]:
    """Yield the ways to put a piece on one axis: each target, both senses, nested or face on face."""
    mine, targets = link
    for target in targets:
        for sense in (1, -1):
            for nested, frame in stacked(mine, target, one_axis(mine, target, sense)):
                yield Fit(frame=frame, targets=(target,), nested=nested, turns=True)


def _by_two(links: Sequence[tuple[Axis, list[Axis]]]) -> Iterator[Fit]:
    """Yield the ways to put a piece on two axes that lie to each other as two of its own do."""
    axes = [axis for axis, _ in links]
    i, j = next(pairs(axes))
    for one in links[i][1]:
        for other in links[j][1]:
            for sense in (1, -1):
                frame = None if one is other else two_axes((axes[i], axes[j]), (one, other), sense)
                if frame is not None:
                    for nested, stood in stacked(axes[i], one, frame):
                        yield Fit(frame=stood, targets=(one, other), nested=nested, turns=False)


def axes_in(job: Job, claims: Sequence[Claim], frames: Mapping[str, Frame], copies: Sequence[str]) -> list[Axis]:
    """Return the axes of all hardware that joins several parts, in copies whose frames are given."""
    found: list[Axis] = []
    for hardware in job.hardware:
        if len(hardware.joins) < 2:
            continue
        there = [
            (copy, moved(claim.bore, frames[copy]))
            for copy in copies
            for claim in claims
            if claim.hardware.name == hardware.name and claim.part == part_of(copy)
        ]
        owner = {id(bore): copy for copy, bore in there}
        for axis in axes_of([bore for _, bore in there]):
            owners = tuple(dict.fromkeys(owner[id(bore)] for bore in axis.bores))
            found.append(Axis(hardware=hardware.name, bores=axis.bores, owners=owners))
    return found


def _links(mine: Sequence[Axis], targets: Sequence[Axis]) -> list[tuple[Axis, list[Axis]]]:
    """Return the axes of a piece that placed axes of the same hardware are open for: no copy of its part sits there."""
    found = []
    for axis in mine:
        parts = {part_of(copy) for copy in axis.owners}
        fit = [t for t in targets if t.hardware == axis.hardware and not parts & {part_of(copy) for copy in t.owners}]
        found += [(axis, fit)] if fit else []
    return found


def _apart(axes: Sequence[Axis]) -> list[float]:
    """Return how far the axes of a piece lie apart."""
    return [apart_mm(axes[i], axes[j]) for i, j in pairs(axes)]
