"""What a cut through a part carries: the force and moment of all loads on one side of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from planner.strength.loads.part_load import PartLoad

Floats = NDArray[np.float64]
LEAST_N = 1e-9
"""Less is no force, and no moment."""
KEPT_N = 64
"""So many cases are kept as rows."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cut:
    """A plane across a part, in its mesh's frame.

    Parameters
    ----------
    at_mm
        A point of it.
    axes
        Rows: two in the plane, then its normal, right-handed.
    """

    at_mm: Floats
    axes: Floats


def cut_at(at_mm: Floats, way: Floats) -> Cut:
    """Return the plane across a way."""
    normal = way / np.linalg.norm(way)
    side = np.eye(3)[int(np.abs(normal).argmin())]
    first = np.cross(side, normal)
    first /= np.linalg.norm(first)
    return Cut(at_mm=at_mm, axes=np.array([first, np.cross(normal, first), normal]))


def beyond(cut: Cut, loads: Sequence[PartLoad]) -> list[PartLoad]:
    """Return the loads beyond a cut, on the side that its normal shows: what the near side must take up."""
    on = (rows_of(tuple(loads))[0] - cut.at_mm) @ cut.axes[2] > 0.0
    return [load for load, beyond_it in zip(loads, on, strict=True) if beyond_it]


def summed(cut: Cut, loads: Sequence[PartLoad], about_mm: Floats) -> tuple[Floats, Floats]:
    """Return force and moment about a point of some loads, in the cut's axes (equilibrium, textbook)."""
    at, push, couple = rows_of(tuple(loads))
    at = at - about_mm
    turned = at[:, [1, 2, 0]] * push[:, [2, 0, 1]] - at[:, [2, 0, 1]] * push[:, [1, 2, 0]]
    moment = turned.sum(axis=0) + couple.sum(axis=0)
    return cut.axes @ push.sum(axis=0), cut.axes @ moment


@lru_cache(maxsize=KEPT_N)
def rows_of(loads: tuple[PartLoad, ...]) -> tuple[Floats, Floats, Floats]:
    """Return places, forces and couples of loads, each (n, 3): a case is asked at hundreds of cuts."""
    rows = np.array([(*one.at_mm, *one.force_n, *one.couple_n_mm) for one in loads]).reshape(-1, 3, 3)
    return rows[:, 0], rows[:, 1], rows[:, 2]
