"""Ejection moves: pieces of the last bed change places with smaller ones on the others, then separated again."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from planner.packing.layout.packed_unit import Layout
from planner.packing.search.corner_fill import Filler
from planner.packing.search.effort import DRAW_S
from planner.packing.separation.bed_state import OUT, State
from planner.packing.separation.overlap import put
from planner.packing.separation.separate import Separator, separated

BEDS_MOST = 3
"""Beds that take part in one move besides the last."""
MOVED_MOST = 3
"""Units that go in or come out at once."""
DRAWS_N = 200
"""Draws until enough moves are found that fill the other beds more, or hardly less."""
CHOICE_N = 4
"""Moves that are drawn for one that is tried: the one that takes least room."""
ROUNDS_N = 12
"""Rounds without less overlap after which a move is given up: many tries that end soon beat few long ones."""
LOSS_MOST, GAIN_MOST = 0.005, 0.08
"""A move may take or bring so much of a bed's room at once; larger ones seldom find a place."""


class Ejector:
    """Draws seeded moves over one search's units."""

    def __init__(self, filler: Filler, separator: Separator, seed: int) -> None:
        self.filler, self.units, self.separator, self.seed = filler, filler.units, separator, seed
        self.rng = np.random.default_rng([seed, 5])

    def moved(self, plates: Sequence[Layout]) -> list[Layout] | None:
        """Return plates, the last with less on it, or hardly more; None where the moves drawn find no place."""
        n, effort = len(plates) - 1, self.filler.effort
        effort.spend(DRAW_S)
        beds = [int(b) for b in self.rng.permutation(n)[: int(self.rng.integers(1, min(n, BEDS_MOST) + 1))]]
        state, keys = self.separator.state([*(plates[b] for b in beds), plates[-1]], (), 0)
        mine = state.beds[: len(keys)]
        mine[mine == len(beds)] = OUT
        area = np.array([self.units[k].area_mm2 for k in keys])
        grown = np.array([self.separator.grown_mm2[k] for k in keys])
        drawn = self._drawn(area, grown, mine)
        if drawn is None:
            return None
        self._changed(state, len(beds), *drawn)
        if not separated(state, len(beds), int(self.rng.integers(2**20)), effort, ROUNDS_N):
            return None
        return self._whole(plates, beds, self.separator.layouts(state, keys, len(beds)))

    def _whole(self, plates: Sequence[Layout], beds: Sequence[int], found: Sequence[Layout]) -> list[Layout] | None:
        """Return all plates, some of them changed, with the rest on the last one; None where geometry forbids it."""
        rows = [dict(plate) for plate in plates[:-1]]
        for b, layout in zip(beds, found, strict=True):
            rows[b] = self.filler.floor_of(layout)[1]
            if len(rows[b]) != len(layout):
                return None
        there = {k for row in rows for k in row}
        floor, held = self.filler.floor_of({k: spot for k, spot in plates[-1].items() if k not in there})
        left = [k for plate in plates for k in plate if k not in there and k not in held]
        last = self.filler.filled(floor, held, sorted(left, key=lambda k: -self.units[k].area_mm2))
        if len(there) + len(last) != sum(map(len, plates)):
            return None
        return [row for row in (*rows, last) if row]

    def _drawn(
        self, area: NDArray[np.float64], grown: NDArray[np.float64], beds: NDArray[np.int64]
    ) -> tuple[list[int], list[int]] | None:
        """Return which outlines go in and which come out, so that more area lies on the beds, or hardly less."""
        inner, outer = np.flatnonzero(beds >= 0), np.flatnonzero(beds == OUT)
        choice: list[tuple[float, list[int], list[int]]] = []
        for _ in range(DRAWS_N):
            into, out = self._some(outer, 1), self._some(inner, 0)
            gain = float(area[into].sum() - area[out].sum())
            if abs(gain) > 1e-3 and -LOSS_MOST < gain / self.filler.ground.area < GAIN_MOST:
                choice.append((float(grown[into].sum() - grown[out].sum()), into, out))
                if len(choice) == CHOICE_N:
                    break
        return min(choice)[1:] if choice else None

    def _changed(self, state: State, beds_n: int, into: Sequence[int], out: Sequence[int]) -> None:
        """Take outlines off the beds and lay others where those were, or anywhere."""
        spots = [(state.spots[i].copy(), int(state.beds[i])) for i in out]
        buffers = np.zeros_like(state.ring), np.zeros_like(state.poles), np.zeros(4)
        for i in out:
            state.beds[i] = OUT
        for i in (*into, *out):
            state.weights[i, :] = state.weights[:, i] = 1.0
        for n, i in enumerate(into):
            spot, bed = spots[n] if n < len(spots) else (None, int(self.rng.integers(beds_n)))
            at = spot if spot is not None else np.array([*(self.rng.random(2) * state.room), 0.0])
            put(state, i, np.array([at[0], at[1], float(state.turns[i])]), bed, *buffers)

    def _some(self, keys: NDArray[np.int64], least: int) -> list[int]:
        """Return a few of some outlines."""
        return [int(keys[i]) for i in self.rng.permutation(len(keys))[: int(self.rng.integers(least, MOVED_MOST + 1))]]
