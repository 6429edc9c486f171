"""Darts: cuts from a patch's rim toward its middle, so that what bends both ways lies flat with less stretch."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from scipy.spatial import cKDTree

from planner.pattern.cut_patch import near_mm, parted, split, walk
from planner.pattern.patch import Floats, Ints, Patch

COUNTS = (4, 6, 8, 12, 16)
"""So many darts are tried, fewest first."""
DEEP_SHARE = 0.85
"""Of the way from the rim to the middle: what is left holds the leaves together; common practice, no source."""
PHASES = (0.0, 0.5, 0.25, 0.75)
"""Where darts would meet an opening, all of them are turned by a share of their distance."""


@dataclass(frozen=True, kw_only=True, eq=False)  # arrays do not compare
class Darted:
    """A patch with darts cut into it, and the vertices along both sides of each, from the rim to the tip."""

    patch: Patch
    sides: list[tuple[Ints, Ints]]


def darted(patch: Patch) -> Iterator[Darted]:
    """Yield a patch with more and more darts; a number that cannot be laid out is left out.

    They start on the outer edge, equally far from each other along it, and run in planes through the vertex that lies
    farthest from that edge and the way that the patch looks.
    """
    rim = patch.vertices_mm[patch.loops[0]]
    far, _ = cKDTree(rim).query(patch.vertices_mm)
    middle = patch.vertices_mm[int(np.argmax(far))]
    look = patch.crosses_mm2.sum(axis=0)
    if float(np.linalg.norm(look)) < 1e-6 * patch.area_mm2:
        return
    look = look / np.linalg.norm(look)
    for count in COUNTS:
        tried = (_cut(patch, rim, middle, look, count, phase) for phase in PHASES)
        found = next((one for one in tried if one is not None), None)
        if found is not None:
            yield found


def _cut(patch: Patch, rim: Floats, middle: Floats, look: Floats, count: int, phase: float) -> Darted | None:
    """Return a patch with so many darts; None where one meets an opening, another dart, or no middle."""
    near, planes = near_mm(patch), []
    for start in _along(rim, (np.arange(count) + phase) / count):
        out = (start - middle) - ((start - middle) @ look) * look
        if float(np.linalg.norm(out)) < 10.0 * near:
            return None
        planes.append((start, out / np.linalg.norm(out)))
    fine = patch
    for _, out in planes:
        fine = split(fine, middle, np.cross(out, look), near)
    outer, inner = fine.loops[0], np.concatenate([*fine.loops[1:], np.zeros(0, dtype=np.int64)])
    chains: list[list[int]] = []
    for start, out in planes:
        away, u = fine.vertices_mm - middle, (fine.vertices_mm - middle) @ out
        on = (np.abs(away @ np.cross(out, look)) <= near) & (u > -near)
        here = outer[on[outer]]
        if not len(here):
            return None
        first = int(here[np.argmin(np.linalg.norm(fine.vertices_mm[here] - start, axis=1))])
        ends = u <= near
        on[outer] = False
        on[first] = True
        chain = _deep(fine, walk(fine, first, on, ends))
        if len(chain) < 3 or np.isin(chain, inner).any() or any(set(chain) & set(other) for other in chains):
            return None
        chains.append(chain)
    whole, sides = parted(fine, chains)
    return Darted(patch=whole, sides=sides)


def _along(ring: Floats, shares: Floats) -> Floats:
    """Return the places at shares of the length of a closed ring."""
    closed = np.concatenate([ring, ring[:1]])
    gone = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(closed, axis=0), axis=1))])
    return np.column_stack([np.interp(shares * gone[-1], gone, closed[:, k]) for k in range(3)])


def _deep(patch: Patch, chain: list[int]) -> list[int]:
    """Return a chain up to the share of its length that is cut."""
    gone = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(patch.vertices_mm[chain], axis=0), axis=1))])
    return chain[: int((gone <= DEEP_SHARE * gone[-1]).sum())]
