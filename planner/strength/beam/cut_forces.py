"""What a cut through a part carries: the force and moment of all loads on one side of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.strength.loads.part_load import PartLoad

Floats = NDArray[np.float64]


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
    return [load for load in loads if (np.array(load.at_mm) - cut.at_mm) @ cut.axes[2] > 0.0]


def summed(cut: Cut, loads: Sequence[PartLoad], about_mm: Floats) -> tuple[Floats, Floats]:
    """Return force and moment about a point of some loads, in the cut's axes (equilibrium, textbook)."""
    at = np.array([load.at_mm for load in loads]).reshape(-1, 3)
    push = np.array([load.force_n for load in loads]).reshape(-1, 3)
    couple = np.array([load.couple_n_mm for load in loads]).reshape(-1, 3)
    moment = np.cross(at - about_mm, push).sum(axis=0) + couple.sum(axis=0)
    return cut.axes @ push.sum(axis=0), cut.axes @ moment
