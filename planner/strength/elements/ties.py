"""Places that take as much as the weakest one, within what a finer mesh may change."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.strength.elements.unresolved import STANDS_PERCENT

Floats = NDArray[np.float64]
APART_MM = 2.0
"""Places that are nearer are one (the contract finds a place within 2 mm)."""
NAMED_MOST_N = 8
"""So many places are named at most: where stress is even all over, there is no end of them."""


def ties_mm(at_mm: Floats, averaged: Floats) -> tuple[Vec3, ...]:
    """Return the other places (n, 3) whose averaged share is the greatest within what counts as standing.

    The greatest first; each lies apart from all that were named before it.
    """
    weakest = int(np.argmax(averaged))
    close = np.flatnonzero(averaged >= averaged[weakest] / (1.0 + STANDS_PERCENT / 100.0))
    named = [at_mm[weakest]]
    left = close[np.argsort(-averaged[close], kind="stable")]
    while len(named) <= NAMED_MOST_N:
        left = left[np.linalg.norm(at_mm[left] - named[-1], axis=1) > APART_MM]
        if not len(left):
            break
        named.append(at_mm[left[0]])
    return tuple((float(x), float(y), float(z)) for x, y, z in named[1:])
