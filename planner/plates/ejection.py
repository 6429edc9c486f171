"""Ejection moves: what lies on the last bed changes places with less on the others, which are then separated anew."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planner.plates.corner_fill import Filler
from planner.plates.separate import Go, Separator
from planner.plates.unit import Layout

BEDS_MOST = 3
"""Beds that take part in one move besides the last."""
MOVED_MOST = 3
"""Units that go in or come out at once."""
DRAWS_N = 200
"""Draws until a move is found that fills the other beds more."""
ROUNDS_N = 80
"""Rounds without less overlap after which a move is given up."""
GAIN_MOST = 0.04
"""A move may bring so much of a bed's room at once; larger ones seldom find a place."""


class Ejector:
    """Draws seeded moves over one search's units."""

    def __init__(self, filler: Filler, separator: Separator, seed: int) -> None:
        self.filler, self.units, self.separator, self.seed = filler, filler.units, separator, seed
        self.rng = np.random.default_rng([seed, 5])

    def moved(self, plates: Sequence[Layout], go: Go) -> list[Layout] | None:
        """Return plates, the last with less on it than before; None where the move drawn finds no place."""
        draw = self._drawn(plates)
        if draw is None:
            return None
        beds, into, out = draw
        floor, held = self.filler.floor_of({k: spot for k, spot in plates[-1].items() if k not in into})
        last = self.filler.filled(floor, held, out)
        if len(last) != len(plates[-1]) - len(into) + len(out):
            return None
        kept = [{k: spot for k, spot in plates[b].items() if k not in out} for b in beds]
        found = self.separator.apart(kept, into, int(self.rng.integers(2**20)), go, ROUNDS_N)
        if found is None:
            return None
        rows = [*plates[:-1], last]
        for b, layout in zip(beds, found, strict=True):
            rows[b] = self.filler.floor_of(layout)[1]
            if len(rows[b]) != len(layout):
                return None
        return [row for row in rows if row]

    def _drawn(self, plates: Sequence[Layout]) -> tuple[list[int], list[int], list[int]] | None:
        """Return beds by number, units that go into them from the last bed, and less of theirs that comes out."""
        n, inner = len(plates) - 1, list(plates[-1])
        for _ in range(DRAWS_N):
            beds = [int(b) for b in self.rng.permutation(n)[: int(self.rng.integers(1, min(n, BEDS_MOST) + 1))]]
            into = self._some(inner, 1)
            out = self._some([k for b in beds for k in plates[b]], 0)
            gain = sum(self.units[k].area_mm2 for k in into) - sum(self.units[k].area_mm2 for k in out)
            if 1e-3 < gain < GAIN_MOST * self.filler.ground.area:
                return beds, into, out
        return None

    def _some(self, keys: Sequence[int], least: int) -> list[int]:
        """Return a few units."""
        return [keys[i] for i in self.rng.permutation(len(keys))[: int(self.rng.integers(least, MOVED_MOST + 1))]]
