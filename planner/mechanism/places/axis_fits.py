"""Ways to lay the axes of one piece on axes that are placed, and to stack its bores on those that lie there already."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from planner.mechanism.places.frame import STILL, Frame
from planner.survey import Bore, Peg

ALIKE_MM = 0.3
"""Two pairs of axes are as far apart where they differ by no more; common practice, no source."""
NESTS_MM = 0.1
"""A piece goes between two others where the room is shorter than it by no more than this."""
PARALLEL_COS = 0.999
Floats = NDArray[np.float64]
Round = TypeVar("Round", Bore, Peg)


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """One axis with all bores on it that one kind of hardware goes through.

    ``owners`` are the copies whose bores these are, ``hardware`` the name of what goes through.
    """

    hardware: str
    bores: tuple[Bore, ...]
    owners: tuple[str, ...]

    @property
    def way(self) -> Floats:
        """Its direction, that of the first bore."""
        return np.asarray(self.bores[0].axis)

    @property
    def at_mm(self) -> Floats:
        """A point of it."""
        return np.asarray(self.bores[0].centre_mm)

    def spans_mm(self, frame: Frame, way: Floats) -> list[tuple[float, float]]:
        """Return where its bores begin and end along a direction of the device, in order."""
        middles = [(float(np.asarray(frame.point(b.centre_mm)) @ way), b.depth_mm / 2) for b in self.bores]
        return sorted((middle - half, middle + half) for middle, half in middles)


def one_axis(mine: Axis, target: Axis, sense: int) -> Frame:
    """Return a frame that lays an axis on a target, in its sense or against it, by the least turn."""
    turn = _least_turn(mine.way, sense * target.way)
    return Frame(turn=turn, shift_mm=target.at_mm - turn @ mine.at_mm)


def two_axes(mine: tuple[Axis, Axis], targets: tuple[Axis, Axis], sense: int) -> Frame | None:
    """Return a frame that lays two parallel axes on two targets; None where they lie otherwise to each other."""
    d, D = mine[0].way, sense * targets[0].way
    if min(abs(float(d @ mine[1].way)), abs(float(D @ targets[1].way))) < PARALLEL_COS:
        return None
    u, U = _across(mine[0], mine[1], d), _across(targets[0], targets[1], D)
    short, long = float(np.linalg.norm(u)), float(np.linalg.norm(U))
    if short < 1.0 or abs(short - long) > ALIKE_MM:
        return None
    u, U = u / short, U / long
    turn = np.column_stack([U, np.cross(D, U), D]) @ np.column_stack([u, np.cross(d, u), d]).T
    middle = (targets[0].at_mm + _across(targets[0], targets[1], D) / 2) - turn @ (
        mine[0].at_mm + _across(mine[0], mine[1], d) / 2
    )
    return Frame(turn=turn, shift_mm=middle)


def apart_mm(one: Axis, other: Axis) -> float:
    """Return how far two parallel axes lie apart."""
    return float(np.linalg.norm(_across(one, other, one.way)))


def stacked(mine: Axis, target: Axis, frame: Frame) -> Iterator[tuple[bool, Frame]]:
    """Yield the frames that stack a piece on what lies on the target's axis, and whether one is nested in the other.

    Nested: in the middle of a gap that the other leaves (mid-planes together); else face on face at either end.
    """
    way = target.way
    ours, theirs = mine.spans_mm(frame, way), target.spans_mm(STILL, way)
    low, high = ours[0][0], ours[-1][1]
    begin, end = theirs[0][0], theirs[-1][1]
    for (_, a), (b, _) in pairwise(theirs):
        if b - a >= high - low - NESTS_MM:
            yield True, frame.slid_along(way, (a + b) / 2 - (low + high) / 2)
    for (_, a), (b, _) in pairwise(ours):
        if b - a >= end - begin - NESTS_MM:
            yield True, frame.slid_along(way, (begin + end) / 2 - (a + b) / 2)
    yield False, frame.slid_along(way, begin - high)
    yield False, frame.slid_along(way, end - low)


def _across(one: Axis, other: Axis, way: Floats) -> Floats:
    """Return the way from one axis to a parallel one, across them."""
    between = other.at_mm - one.at_mm
    found: Floats = between - way * float(between @ way)
    return found


def _least_turn(a: Floats, b: Floats) -> Floats:
    """Return the least rotation that turns one unit vector into another (Rodrigues' formula, from memory)."""
    cross, cos = np.cross(a, b), float(a @ b)
    if cos < -1.0 + 1e-9:
        side = np.cross(a, np.eye(3)[int(np.argmin(np.abs(a)))])
        side /= np.linalg.norm(side)
        return 2.0 * np.outer(side, side) - np.eye(3)
    x, y, z = cross
    K = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    found: Floats = np.eye(3) + K + K @ K / (1.0 + cos)
    return found


def pairs(axes: Sequence[Axis]) -> Iterator[tuple[int, int]]:
    """Yield two axes of a piece that fix it best: the farthest apart first."""
    every = [(i, j) for i in range(len(axes)) for j in range(i + 1, len(axes))]
    yield from sorted(every, key=lambda pair: -apart_mm(axes[pair[0]], axes[pair[1]]))


def moved(bore: Round, frame: Frame) -> Round:
    """Return a bore, or a peg, as it lies in the device."""
    return replace(bore, axis=frame.direction(bore.axis), centre_mm=frame.point(bore.centre_mm))
