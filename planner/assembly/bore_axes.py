"""Axes that bores lie on, and which axes of two parts lie alike: the pattern that the screws go through."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise, permutations

import numpy as np
from numpy.typing import NDArray

from planner.survey import Bore, Peg

SAME_FACE_MM = 0.1
"""Bores of one part with less room between them are one bore, drawn in steps."""
COAXIAL_MM = 0.5
"""Bores of two parts whose axes lie this near are one axis; common practice, no source."""
PARALLEL_COS = 0.999
ALIKE_MM = 0.3
"""Two patterns are the same where every axis lies this near; common practice, no source."""
FEW = 2
PARTS_MOST = 40
"""Among more axes than this no part of a pattern is looked for, only all of it."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreAxis:
    """One axis of a part, with all its bores of one size."""

    bores: tuple[Bore, ...]

    @property
    def looks(self) -> tuple[tuple[float, float, bool], ...]:
        """What tells it from another axis: diameter, depth and end of every bore, in tenths of a millimetre."""
        return tuple(sorted((round(b.named_mm, 1), round(b.depth_mm, 1), b.through) for b in self.bores))


def coaxial(one: Bore | Peg, other: Bore | Peg) -> bool:
    """Return whether two bores or pegs, in one frame, lie on one axis."""
    a, b = np.asarray(one.axis), np.asarray(other.axis)
    between = np.asarray(other.centre_mm) - np.asarray(one.centre_mm)
    beside = between - a * float(between @ a)
    return abs(float(a @ b)) > PARALLEL_COS and float(np.linalg.norm(beside)) < COAXIAL_MM


def meet(one: BoreAxis, other: BoreAxis) -> bool:
    """Return whether two parts' axes, in one frame, are one: their bores follow each other and never overlap."""
    return all(coaxial(a, b) and _apart(a, b) for a in one.bores for b in other.bores)


def axes_of(bores: Sequence[Bore]) -> tuple[BoreAxis, ...]:
    """Return the axes of a part's bores, in the order of their first bores."""
    groups: list[list[Bore]] = []
    for bore in bores:
        mine = next((group for group in groups if coaxial(group[0], bore)), None)
        if mine is None:
            groups.append([bore])
        else:
            mine.append(bore)
    return tuple(BoreAxis(bores=tuple(group)) for group in groups)


def runs_of(
    bores: Sequence[tuple[str, Bore]], apart_most_mm: float, in_fork_most_mm: float = 0.0
) -> list[list[tuple[str, Bore]]]:
    """Return bores of parts, each with its part's name, in runs that one piece goes through.

    They lie on one axis, one behind the other, with no more room between two than this; between two of one part as much
    as its lever takes in its fork. Parts that are drawn round their own origins overlap there and make no run.
    """
    runs: list[list[tuple[str, Bore]]] = []
    for bore in bores:
        mine, others = [bore], []
        for run in runs:
            pairs = [(one, other) for _, one in run for _, other in mine]
            follows = all(coaxial(*pair) and _apart(*pair) for pair in pairs)
            near = follows and min(_room_mm(*pair) for pair in pairs) <= apart_most_mm
            own = [(one, other) for part, one in run for where, other in mine if part == where]
            if near or (follows and own and min(_room_mm(*pair) for pair in own) <= in_fork_most_mm):
                mine = [*run, *mine]
            else:
                others.append(run)
        runs = [*others, mine]
    return runs


def no_longer(run: Sequence[tuple[str, Bore]], longest_mm: float | None) -> list[list[tuple[str, Bore]]]:
    """Return bores that follow each other as runs that a piece of some length reaches through.

    A longer run ends between two bores of one part with nothing but room between them: there two forks stand side by
    side.
    """
    way = np.asarray(run[0][1].axis)
    ordered = sorted(run, key=lambda one: float(way @ one[1].centre_mm))
    faces = [(float(way @ bore.centre_mm) - bore.depth_mm / 2, bore.depth_mm) for _, bore in ordered]
    if longest_mm is None or faces[-1][0] + faces[-1][1] - faces[0][0] <= longest_mm:
        return [ordered]
    found = [ordered[:1]]
    for (before, (low_mm, deep_mm)), (after, (next_mm, _)) in pairwise(zip(ordered, faces, strict=True)):
        if before[0] == after[0] and next_mm - low_mm - deep_mm > SAME_FACE_MM:
            found.append([after])
        else:
            found[-1].append(after)
    return found if all(len({name for name, _ in each}) > 1 for each in found) else [ordered]


def alike(axes: Sequence[BoreAxis], pattern: Sequence[BoreAxis]) -> list[frozenset[int]]:
    """Return every set of axes that lie to each other as those of the pattern do, turned or mirrored.

    Where a pattern has parts that are not among the axes, the largest common one of three or more counts. One axis
    alone says nothing: each is alike then. No set where the axes are not parallel.
    """
    if not axes or not pattern:
        return []
    if len(pattern) == 1:
        return [frozenset([index]) for index in range(len(axes))]
    flat = _flat(pattern)
    found: set[frozenset[int]] = set()
    for group in _parallel(axes):
        here = _flat([axes[index] for index in group])
        if flat is not None and here is not None:
            found |= {frozenset(group[i] for i in match) for match in _matches(here, flat)}
    most = max((len(match) for match in found), default=0)
    return sorted((m for m in found if len(m) == most), key=sorted) if most in (len(pattern), *range(3, 99)) else []


def _apart(one: Bore, other: Bore) -> bool:
    """Return whether two coaxial bores lie behind each other."""
    return _room_mm(one, other) >= -COAXIAL_MM


def _room_mm(one: Bore, other: Bore) -> float:
    """Return how far two coaxial bores lie apart along their axis; negative where they overlap."""
    along = float((np.asarray(other.centre_mm) - np.asarray(one.centre_mm)) @ np.asarray(one.axis))
    return abs(along) - (one.depth_mm + other.depth_mm) / 2


def _parallel(axes: Sequence[BoreAxis]) -> list[list[int]]:
    """Return the axes in groups of one direction."""
    groups: list[list[int]] = []
    for index, axis in enumerate(axes):
        way = np.asarray(axis.bores[0].axis)
        fits = (g for g in groups if abs(float(way @ np.asarray(axes[g[0]].bores[0].axis))) > PARALLEL_COS)
        mine = next(fits, None)
        if mine is None:
            groups.append([index])
        else:
            mine.append(index)
    return groups


def _flat(axes: Sequence[BoreAxis]) -> Floats | None:
    """Return where parallel axes cross the plane across them; None where they are not parallel."""
    if len(_parallel(axes)) != 1:
        return None
    across = np.linalg.svd(np.asarray(axes[0].bores[0].axis)[None, :])[2][1:]
    return np.array([across @ np.asarray(axis.bores[0].centre_mm) for axis in axes])


def _matches(points: Floats, pattern: Floats) -> set[frozenset[int]]:
    """Return the sets of points that all of the pattern falls on, else those that the most of it does."""
    whole = _laid_on(points, pattern, 0, 1)  # a whole pattern lies with its first two axes somewhere
    if any(len(match) == len(pattern) for match in whole):
        return {match for match in whole if len(match) == len(pattern)}
    if max(len(points), len(pattern)) > PARTS_MOST:
        return set()
    far = np.linalg.norm(pattern[:, None] - pattern[None, :], axis=2) + np.diag(np.full(len(pattern), np.inf))
    found = {match for p in range(len(pattern)) for match in _laid_on(points, pattern, p, int(np.argmin(far[p])))}
    most = max((len(match) for match in found), default=0)
    return {match for match in found if len(match) == most}


def _laid_on(points: Floats, pattern: Floats, p: int, q: int) -> set[frozenset[int]]:
    """Return the points under a pattern for every way to lay its axes p and q on two of the points."""
    long = math.dist(pattern[p], pattern[q])
    pairs = permutations(range(len(points)), FEW)
    return {
        _laid(points, pattern, (p, q, i, j), flip)
        for i, j in pairs
        if abs(math.dist(points[i], points[j]) - long) < ALIKE_MM
        for flip in (False, True)
    }


def _laid(points: Floats, pattern: Floats, ends: tuple[int, int, int, int], flip: bool) -> frozenset[int]:
    """Return the points under a pattern that is laid with its axes p and q on the points i and j."""
    p, q, i, j = ends
    z, w = points @ [1, 1j], pattern @ [1, 1j]
    w = w.conj() if flip else w
    turned = z[i] + (w - w[p]) * ((z[j] - z[i]) / (w[q] - w[p]))
    return frozenset(int(k) for row in np.abs(turned[:, None] - z[None, :]) < ALIKE_MM for k in np.flatnonzero(row)[:1])
