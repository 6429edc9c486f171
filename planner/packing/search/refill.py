"""Empty a few beds and fill them again in another order, many times: what is fuller stays."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planner.packing.layout.packed_unit import Layout, Unit
from planner.packing.search.bed_filling import SCORES
from planner.packing.search.corner_fill import COARSE_N, FINE_DEG, Filler

NOISE = 0.25
"""Spread of the factor on a unit's measure when units are ordered by it."""
TURNS_N = (COARSE_N, 8, len(FINE_DEG))


class Refiller:
    """Draws seeded changes of layouts over one filler's units."""

    def __init__(self, filler: Filler, seed: int) -> None:
        self.filler, self.units, self.rng = filler, filler.units, np.random.default_rng(seed)
        area = np.array([unit.area_mm2 for unit in self.units])
        hull = np.array([float(unit.shape.convex_hull.area) for unit in self.units])
        reach = np.array([_reach_mm(unit) for unit in self.units])
        self.measures = (area, hull, reach)

    def changed(self, plates: Sequence[Layout]) -> list[Layout]:
        """Return layouts with two or more beds filled again, often the emptiest among them, and no less full."""
        area = np.array([self._area(plate) for plate in plates])
        n = len(plates) if self.rng.random() < 0.25 else min(len(plates), int(self.rng.integers(2, 4)))
        drawn = self.rng.permutation(len(plates))[:n]
        if self.rng.random() < 0.6 and int(area.argmin()) not in drawn:
            drawn[0] = int(area.argmin())
        pool = [k for number in sorted(drawn) for k in plates[number]]
        measure = self.measures[int(self.rng.integers(len(self.measures)))]
        worth = measure[pool] * self.rng.normal(1.0, NOISE, len(pool))
        order = [pool[i] for i in np.argsort(-worth, kind="stable")]
        turns_n, score = TURNS_N[int(self.rng.integers(3))], SCORES[int(self.rng.integers(3))]
        found, lost = self.filler.beds(order, turns_n=turns_n, score=score)
        if lost:
            return list(plates)
        candidate = [plate for number, plate in enumerate(plates) if number not in drawn] + found
        return min(list(plates), candidate, key=self.emptiness)

    def emptiness(self, plates: Sequence[Layout]) -> tuple[float, float]:
        """Return what is less where plates are fewer, or units crowd on some and leave others."""
        return len(plates), -sum(self._area(plate) ** 2 for plate in plates)

    def _area(self, plate: Layout) -> float:
        """Return the units' area on a plate."""
        return sum(self.units[k].area_mm2 for k in plate)


def _reach_mm(unit: Unit) -> float:
    """Return a unit's greatest length along an axis."""
    x0, y0, x1, y1 = unit.shape.bounds
    return float(max(x1 - x0, y1 - y0))
