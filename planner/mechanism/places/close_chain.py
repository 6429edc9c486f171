"""A chain is closed: copies that may still turn are turned until a piece's two axes reach from one to the other."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planner.mechanism.places.axis_fits import Axis, apart_mm, pairs
from planner.mechanism.places.frame import STILL
from planner.mechanism.places.place_room import Room

TRIES_N = 40
CLOSED_MM = 1e-6
MOST_DEG = 20.0
"""Of one step, so that the chain closes in the form that is nearest to the one drawn."""


def close_chain(links: Sequence[tuple[Axis, list[Axis]]], room: Room, free: dict[str, str]) -> bool:
    """Turn the copies that carry two target axes until these are as far apart as the piece's own; tell if it was done.

    Gauss and Newton's method on one equation: of all turns that close the chain, the least ones (least squares).
    """
    i, j = next(pairs([axis for axis, _ in links]))
    long = apart_mm(links[i][0], links[j][0])
    targets, carriers = zip(*(_carried(links[k][1], room, free) for k in (i, j)), strict=True)
    turning = [n for n, carrier in enumerate(carriers) if carrier]
    if not turning:
        return False

    def short_mm(spins: np.ndarray) -> float:
        places = [np.array(target.at_mm) for target in targets]
        for n, deg in zip(turning, spins, strict=True):
            places[n] = _turned(places[n], room.hangs[carriers[n]], float(deg))
        way = targets[0].way
        between = places[1] - places[0]
        return float(np.linalg.norm(between - way * float(between @ way))) - long

    spins = np.zeros(len(turning))
    for _ in range(TRIES_N):
        miss = short_mm(spins)
        if abs(miss) < CLOSED_MM:
            break
        slope = np.array([(short_mm(spins + step) - miss) / 1e-4 for step in np.eye(len(spins)) * 1e-4])
        if float(slope @ slope) < 1e-12:
            return False
        spins -= np.clip(slope * miss / float(slope @ slope), -MOST_DEG, MOST_DEG)
    else:
        return False
    for n, deg in zip(turning, spins, strict=True):
        copy = carriers[n]
        axis = room.hangs[copy]
        room.frames[copy] = room.frames[copy].turned_about(axis.way, axis.at_mm, float(deg))
        free[copy] = "the closed chain that it is in may stand at any angle"
    return True


def _carried(targets: Sequence[Axis], room: Room, free: dict[str, str]) -> tuple[Axis, str]:
    """Return a target that a copy which may still turn carries, and that copy; else the first target, and no name."""
    found = ((target, copy) for target in targets for copy in target.owners if copy in free and copy in room.hangs)
    return next(found, (targets[0], ""))


def _turned(point: np.ndarray, axis: Axis, deg: float) -> np.ndarray:
    """Return a point turned about an axis."""
    return np.asarray(STILL.turned_about(axis.way, axis.at_mm, deg).point(point))
