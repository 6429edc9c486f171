"""Which mouth of a channel comes first, and on which side a cord goes round a wrap, where the job does not say."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.finding import Vec3
from planner.mechanism.cord.path.path_stop import LineStop, PathStop, WrapStop
from planner.mechanism.cord.placed_stop import Placed, Ring, Run, stand
from planner.mechanism.cord.tangents import first_point, last_point
from planner.mechanism.cord.taut import taut
from planner.mechanism.places.frame import Frame

KEPT_MOST = 16
"""Ways that are followed from wrap to wrap: all of them up to four wraps, the best beyond."""
NEAR_DIGITS = 6
"""Ways that agree to so many digits, in mm, are equally long."""

Poses = Sequence[Mapping[str, Frame]]


def settled(stops: Sequence[PathStop], poses: Poses, factor: float, cord_mm: float) -> tuple[PathStop, ...]:
    """Return the path with every channel in its order and every wrap with its sense.

    Parameters
    ----------
    stops
        As resolved from the job.
    poses
        Where copies stand at a few angles over the range, the drawn place first.
    factor, cord_mm
        Scale, and diameter of the cord.

    Notes
    -----
    A channel is run through so that the way is shortest at the drawn place. Of the sides on which a cord may go round
    its wraps, those count that let it touch the most of them at one angle or another: a job names no wrap for nothing.
    Of these, the shortest way is taken, summed over the angles.
    """
    ordered = _in_order(stops, poses[0], factor, cord_mm)
    return _sided(ordered, poses, factor, cord_mm)


def _in_order(
    stops: Sequence[PathStop], pose: Mapping[str, Frame], factor: float, cord_mm: float
) -> tuple[PathStop, ...]:
    """Return the path with each channel run through the shorter way: the shortest chain of straight ways (Bellman)."""
    placed = stand(stops, pose, factor, cord_mm)
    best: list[tuple[float, tuple[PathStop, ...], Vec3]] = []
    for stop, here in zip(stops, placed, strict=True):
        ways: list[tuple[PathStop, Vec3, Vec3]] = [(stop, first_point(here), last_point(here))]
        if isinstance(stop, LineStop) and isinstance(here, Run):
            ways.append((stop.reversed(), last_point(here), first_point(here)))
        if not best:
            best = [(0.0, (way,), end) for way, _, end in ways]
            continue
        best = [
            min(
                ((cost + math.dist(at, start), (*chain, way), end) for cost, chain, at in best),
                key=lambda one: one[0],
            )
            for way, start, end in ways
        ]
    return min(best, key=lambda one: one[0])[1]


def _sided(stops: tuple[PathStop, ...], poses: Poses, factor: float, cord_mm: float) -> tuple[PathStop, ...]:
    """Return the path with a sense for each wrap."""
    open_ = [k for k, stop in enumerate(stops) if isinstance(stop, WrapStop) and not stop.sense]
    if not open_:
        return stops
    placed = [stand(stops, pose, factor, cord_mm) for pose in poses]
    kept: list[tuple[int, ...]] = [()]
    for _ in open_:
        grown = [(*senses, way) for senses in kept for way in (1, -1)]
        kept = sorted(grown, key=lambda senses: _worth(placed, open_, senses))[:KEPT_MOST]
    chosen = dict(zip(open_, kept[0], strict=True))
    return tuple(
        replace(stop, sense=chosen[k]) if isinstance(stop, WrapStop) and k in chosen else stop
        for k, stop in enumerate(stops)
    )


def _worth(placed: Sequence[Sequence[Placed]], open_: Sequence[int], senses: Sequence[int]) -> tuple[int, float]:
    """Return how many wraps are never touched, and the sum of the lengths; wraps without a sense yet are left out."""
    chosen, later = dict(zip(open_, senses, strict=False)), set(open_[len(senses) :])
    numbers = [k for k in range(len(placed[0])) if k not in later]
    cords = [taut([_with_sense(stops[k], chosen.get(k)) for k in numbers]) for stops in placed]
    touched = {numbers[i] for cord in cords for i in cord.touched}
    return sum(k not in touched for k in chosen), round(sum(cord.length_mm for cord in cords), NEAR_DIGITS)


def _with_sense(stop: Placed, sense: int | None) -> Placed:
    """Return a placed stop with a sense written into its circle."""
    return replace(stop, sense=sense) if isinstance(stop, Ring) and sense is not None else stop
