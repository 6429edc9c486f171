"""Faces cut small enough to carry a value each, as one stream of bytes that the page's script unfolds.

The stream goes through the faces in order. A byte below 253 is a face, or a piece of one, with its level: 0 where
nothing is told, else ``(level - 1) * step``. 253, 254 and 255 cut a piece in two from the middle of its first, second
or third side to the corner across; both halves follow, the one with the side's first end before the other.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
PAINT_VERSION = 1
"""Raised whenever a result changes, so that kept ones are not trusted."""
LEVELS_N = 251
CUT = 253
PIECES_MOST_N = 6000
"""So many pieces are added to a part's faces at most."""
FINEST = 80.0
"""No side is cut below this part of the solid's size."""
COARSER = 1.2
"""Times which the finest side grows until there are few enough pieces."""
ALIKE_LEVELS_N = 5
"""Two halves whose levels differ by no more become one again: 2 % of the part's greatest share."""
COARSE = 8.0
"""But no piece becomes larger than so many of the finest sides, so that a bend can be drawn on it."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Painted:
    """The stream, what a level is worth, and every piece's middle and value before levels were made."""

    stream: bytes
    step_percent: float
    middles_mm: Floats
    values_percent: Floats


def painted(corners_mm: Floats, values_percent: Callable[[Floats], Floats]) -> Painted:
    """Return faces (n, 3, 3) with the values that a function gives at the middles of their pieces."""
    side_mm = float(np.linalg.norm(np.ptp(corners_mm.reshape(-1, 3), axis=0))) / FINEST
    levels = _cut_up(corners_mm, side_mm)
    # No half is longer than its whole, so that a coarser side cuts just those pieces that are longer than it.
    long_mm = np.concatenate([one.long_mm[one.cut] for one in levels])
    if len(long_mm) > PIECES_MOST_N:
        while (long_mm > side_mm).sum() > PIECES_MOST_N:
            side_mm *= COARSER
        levels = _cut_up(corners_mm, side_mm)
    middles = [one.corners_mm[~one.cut].mean(axis=1) for one in levels]
    values = values_percent(np.concatenate(middles))
    step = max(float(np.nanmax(values, initial=0.0)), 1e-9) / (LEVELS_N - 1)
    told = iter(np.split(values, np.cumsum([len(one) for one in middles])[:-1]))
    codes: list[NDArray[np.int64]] = []
    for one in levels:
        code = np.where(one.cut, CUT + one.side, 0)
        own = next(told)
        code[~one.cut] = np.where(np.isnan(own), 0, 1 + np.round(np.nan_to_num(own) / step))
        codes.append(code)
    _merge(levels, codes, COARSE * side_mm)
    return Painted(
        stream=_stream(levels, codes),
        step_percent=step,
        middles_mm=np.concatenate(middles),
        values_percent=values,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Level:
    """Pieces that came about by as many cuts: their corners, longest side, and which of them are cut once more."""

    corners_mm: Floats
    side: NDArray[np.int64]
    long_mm: Floats
    cut: NDArray[np.bool_]


def _cut_up(corners_mm: Floats, side_mm: float) -> list[_Level]:
    """Cut faces across their longest sides until none is longer than asked; halves of piece k are 2 k and 2 k + 1."""
    levels: list[_Level] = []
    while len(corners_mm):
        sides = np.linalg.norm(np.roll(corners_mm, -1, axis=1) - corners_mm, axis=2)
        longest, long_mm = sides.argmax(axis=1), sides.max(axis=1)
        cut = long_mm > side_mm
        levels.append(_Level(corners_mm=corners_mm, side=longest, long_mm=long_mm, cut=cut))
        corners_mm = halves(corners_mm[cut], longest[cut])
    return levels


def halves(corners_mm: Floats, side: NDArray[np.int64]) -> Floats:
    """Return both halves of pieces (n, 3, 3) cut at the middle of a side each, (2 n, 3, 3)."""
    rows = np.arange(len(corners_mm))
    after = (side + 1) % 3
    middle = (corners_mm[rows, side] + corners_mm[rows, after]) / 2.0
    both = np.repeat(corners_mm, 2, axis=0)
    both[2 * rows, after] = middle
    both[2 * rows + 1, side] = middle
    return both


def _merge(levels: list[_Level], codes: list[NDArray[np.int64]], most_mm: float) -> None:
    """Make one piece again of two halves whose values are alike, from the finest up; the greater value stays."""
    for number in range(len(levels) - 2, -1, -1):
        pairs = codes[number + 1].reshape(-1, 2)
        cut = np.flatnonzero(levels[number].cut)
        told = (pairs < CUT).all(axis=1) & ((pairs > 0).all(axis=1) | (pairs == 0).all(axis=1))
        alike = told & (np.ptp(pairs, axis=1) <= ALIKE_LEVELS_N) & (levels[number].long_mm[cut] <= most_mm)
        codes[number][cut[alike]] = pairs[alike].max(axis=1)


def _stream(levels: list[_Level], codes: list[NDArray[np.int64]]) -> bytes:
    """Return the codes with every cut piece's halves right behind it."""
    first_half = [np.cumsum(one.cut) - 1 for one in levels]
    found = bytearray()
    todo = [(0, piece) for piece in range(len(codes[0]) - 1, -1, -1)]
    while todo:
        number, piece = todo.pop()
        code = int(codes[number][piece])
        found.append(code)
        if code >= CUT:
            half = 2 * int(first_half[number][piece])
            todo += [(number + 1, half + 1), (number + 1, half)]
    return bytes(found)
