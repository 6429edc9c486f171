"""A dart of a flat pattern: its two sides, which are put together once it is cut out."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

import numpy as np

from planner.pattern.unrolled import Ring


@dataclass(frozen=True, slots=True, kw_only=True)
class Dart:
    """A cut from the outline inward: both of its sides, from the rim to the tip that they share."""

    left: Ring
    right: Ring

    @property
    def opens_mm(self) -> float:
        """How far apart its sides are at the rim."""
        return math.dist(self.left[0], self.right[0])

    @property
    def long_mm(self) -> float:
        """How long it is, along its left side."""
        return sum(math.dist(*pair) for pair in itertools.pairwise(self.left))

    def matching(self, share: float) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return the places, one on each side, that come together at a share of the way from the rim to the tip."""
        return _at_share(self.left, share), _at_share(self.right, share)


def _at_share(line: Ring, share: float) -> tuple[float, float]:
    """Return the place at a share of the length of a line."""
    points = np.array(line)
    gone = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    x, y = (float(np.interp(share * gone[-1], gone, points[:, k])) for k in range(2))
    return x, y
